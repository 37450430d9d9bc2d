package burnerbridge.site;

import java.net.URI;
import java.util.List;

/**
 * The MQTT side.
 *
 * @param brokers tried in turn
 * @param root the first level or levels of every topic
 */
public record MqttSettings(List<URI> brokers, String root) {
    public MqttSettings {
        brokers = List.copyOf(brokers);
    }
}
