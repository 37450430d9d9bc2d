/** What this side counts, and what it makes of how its connections end. */
@NullMarked
package burnerbridge.mqtt.watch;

import org.jspecify.annotations.NullMarked;
