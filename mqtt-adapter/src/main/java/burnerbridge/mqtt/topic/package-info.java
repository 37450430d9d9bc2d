/** What each topic says: its name, its payload, for how long that holds, and what is worth saying again. */
@NullMarked
package burnerbridge.mqtt.topic;

import org.jspecify.annotations.NullMarked;
