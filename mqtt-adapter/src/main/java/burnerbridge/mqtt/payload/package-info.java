/** What each message says, as JSON: the values, the times, and for how long it holds. */
@NullMarked
package burnerbridge.mqtt.payload;

import org.jspecify.annotations.NullMarked;
