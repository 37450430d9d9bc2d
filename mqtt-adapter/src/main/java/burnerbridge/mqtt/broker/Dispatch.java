package burnerbridge.mqtt.broker;

import java.util.OptionalLong;

/**
 * What MQTT 5 says of a message besides its topic and payload; 3.1.1 says nothing of it.
 *
 * @param responseTopic where an answer is awaited (MQTT 5.0, 3.3.2.3.5); empty: nowhere
 * @param correlation by which whoever asks knows the answer again (3.3.2.3.6)
 * @param expirySeconds what is left of its life as the broker counts it (3.3.2.3.3); empty: it never ends
 */
public record Dispatch(String responseTopic, Octets correlation, OptionalLong expirySeconds) {
    public static final Dispatch NONE = new Dispatch("", Octets.NONE, OptionalLong.empty());
}
