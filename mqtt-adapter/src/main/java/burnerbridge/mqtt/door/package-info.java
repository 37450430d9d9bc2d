/** Asks for writes over MQTT: which message is one, how long it holds, and what becomes of it. */
@NullMarked
package burnerbridge.mqtt.door;

import org.jspecify.annotations.NullMarked;
