/** One connection to an MQTT broker: an interface of our own, and the client library behind it. */
@NullMarked
package burnerbridge.mqtt.broker;

import org.jspecify.annotations.NullMarked;
