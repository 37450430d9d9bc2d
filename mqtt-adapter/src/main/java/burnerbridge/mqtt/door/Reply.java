package burnerbridge.mqtt.door;

import burnerbridge.mqtt.broker.Octets;

/**
 * What is told to an asker.
 *
 * @param correlation of its ask; empty under MQTT 3.1.1, where the payload has its id
 */
public record Reply(String topic, String payload, Octets correlation) {
    /** How long it is worth telling; seconds. */
    public static final long LIFE_SECONDS = 60;
}
