package burnerbridge.site;

import java.net.URI;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.Set;

/**
 * The MQTT side.
 *
 * @param brokers tried in turn; {@code tcp} is plain, {@code tls} and {@code mqtts} are encrypted
 * @param root the first level or levels of every topic
 * @param clientId the client identifier; empty: {@code burner-bridge-} and the site's name
 * @param user empty: the environment may name one
 * @param passwordFile empty: the environment may hold the password
 */
public record MqttSettings(
        List<URI> brokers,
        String root,
        Version version,
        Optional<String> clientId,
        Optional<String> user,
        Optional<Path> passwordFile,
        Tls tls) {
    private static final Set<String> ENCRYPTED = Set.of("tls", "mqtts");

    /** What is spoken with the brokers. */
    public enum Version {
        V5("5"),
        V3_1_1("3.1.1");

        private final String number;

        Version(String number) {
            this.number = number;
        }

        public String number() {
            return number;
        }
    }

    /**
     * The files of encrypted connections, all in PEM.
     *
     * @param authority certificates that the broker's must come from; empty: those that Java trusts
     * @param certificate our own and those between it and its authority; empty: the broker asks for none
     * @param key the private key of our certificate, in PKCS#8
     */
    public record Tls(Optional<Path> authority, Optional<Path> certificate, Optional<Path> key) {
        public static final Tls NONE = new Tls(Optional.empty(), Optional.empty(), Optional.empty());

        public Tls {
            if (certificate.isPresent() != key.isPresent()) {
                throw new IllegalArgumentException("a client certificate and its key come together");
            }
        }
    }

    public MqttSettings {
        brokers = List.copyOf(brokers);
    }

    /** MQTT 5 without a user. */
    public MqttSettings(List<URI> brokers, String root) {
        this(brokers, root, Version.V5, Optional.empty(), Optional.empty(), Optional.empty(), Tls.NONE);
    }

    /** How the bridge of a site calls itself. */
    public String clientIdOf(Name site) {
        return clientId.orElse("burner-bridge-" + site);
    }

    /** Whether the connection to a broker is encrypted. */
    public static boolean isEncrypted(URI broker) {
        return ENCRYPTED.contains(broker.getScheme());
    }
}
