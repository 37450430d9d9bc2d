package burnerbridge.config;

import burnerbridge.site.MqttSettings;
import java.net.URI;
import java.net.URISyntaxException;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;

/** Reads the {@code mqtt} part of {@code site.yaml}. */
final class MqttReader {
    private final YamlMap map;

    MqttReader(YamlMap map) {
        this.map = map;
    }

    Optional<MqttSettings> read() {
        map.allowOnly(
                new TreeSet<>(Set.of("brokers", "root")),
                Set.of("version", "user", "password-file", "tls", "client-id"));
        Optional<String> root = map.requiredText("root", "the first level of every topic, like 'root: plant'");
        List<URI> brokers = brokers();
        if (root.isPresent() && !root.get().matches("[a-z0-9-]+(/[a-z0-9-]+)*")) {
            map.error("root", "must be lower-case words, joined by / for levels (was '" + root.get() + "')");
            return Optional.empty();
        }
        return root.isEmpty() || brokers.isEmpty()
                ? Optional.empty()
                : Optional.of(new MqttSettings(brokers, root.get()));
    }

    private List<URI> brokers() {
        List<URI> brokers = new ArrayList<>();
        if (map.isEmptyList("brokers")) {
            map.error("brokers", "must list at least one broker, like [tcp://192.0.2.5:1883]");
        }
        for (String text : map.texts("brokers")) {
            broker(text).ifPresent(brokers::add);
        }
        return brokers;
    }

    private Optional<URI> broker(String text) {
        try {
            URI uri = new URI(text);
            if ("ssl".equals(uri.getScheme()) || "tls".equals(uri.getScheme()) || "mqtts".equals(uri.getScheme())) {
                map.error("brokers", "TLS is not supported by this version yet (was '" + text + "')");
                return Optional.empty();
            }
            if ("tcp".equals(uri.getScheme())
                    && uri.getHost() != null
                    && uri.getPort() > 0
                    && uri.getPort() <= 65535
                    && uri.toString().equals("tcp://" + uri.getHost() + ":" + uri.getPort())) {
                return Optional.of(uri);
            }
        } catch (URISyntaxException e) {
            // Told below, with what is allowed.
        }
        map.error("brokers", "must be tcp://host:port (was '" + text + "')");
        return Optional.empty();
    }
}
