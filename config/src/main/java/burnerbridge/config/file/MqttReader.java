package burnerbridge.config.file;

import burnerbridge.config.yaml.YamlMap;
import burnerbridge.site.MqttSettings;
import burnerbridge.site.MqttSettings.Tls;
import burnerbridge.site.MqttSettings.Version;
import java.net.URI;
import java.net.URISyntaxException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Stream;

/** Reads the {@code mqtt} part of {@code site.yaml}. Whether its files are there is seen when they are needed. */
final class MqttReader {
    /** A topic has at most 65,535 octets (MQTT 5.0, 4.7.3), and each of three names at most 64. */
    private static final int LONGEST_ROOT = 256;

    private static final int LONGEST_USER = 1000;
    private static final Set<String> SCHEMES = Set.of("tcp", "tls", "mqtts");
    private static final String ADDRESS = "must be tcp://host:port, or tls://host:port for an encrypted connection";

    private final YamlMap map;
    private final OutsideFiles outside;

    MqttReader(YamlMap map, OutsideFiles outside) {
        this.map = map;
        this.outside = outside;
    }

    Optional<MqttSettings> read() {
        map.allowOnly(
                new TreeSet<>(Set.of("brokers", "root", "version", "client-id", "user", "password-file", "tls")),
                Set.of());
        Optional<String> root = root();
        List<URI> brokers = brokers();
        Version version = version();
        Optional<String> clientId = clientId();
        Optional<String> user = user();
        Optional<Path> passwordFile = outside.secret(map, "password-file");
        Tls tls = map.map("tls").map(this::tls).orElse(Tls.NONE);
        warn(brokers);
        return root.isEmpty() || brokers.isEmpty()
                ? Optional.empty()
                : Optional.of(new MqttSettings(brokers, root.get(), version, clientId, user, passwordFile, tls));
    }

    private Optional<String> root() {
        Optional<String> root = map.requiredText("root", "the first level of every topic, like 'root: plant'");
        if (root.isPresent() && root.get().length() > LONGEST_ROOT) {
            map.error(
                    "root",
                    "must be at most " + LONGEST_ROOT + " characters (was "
                            + root.get().length() + ")");
            return Optional.empty();
        }
        if (root.isPresent() && !root.get().matches("[a-z0-9-]+(/[a-z0-9-]+)*")) {
            map.error("root", "must be lower-case words, joined by / for levels (was '" + root.get() + "')");
            return Optional.empty();
        }
        return root;
    }

    private Version version() {
        List<String> numbers = Stream.of(Version.values()).map(Version::number).toList();
        return map.word("version", new LinkedHashSet<>(numbers))
                .map(number -> Version.values()[numbers.indexOf(number)])
                .orElse(Version.V5);
    }

    private Optional<String> clientId() {
        Optional<String> id = map.text("client-id");
        if (id.isPresent() && !id.get().matches("[0-9A-Za-z._-]{1,64}")) {
            map.error("client-id", "must be 1 to 64 letters, digits, dots, hyphens or _ (was '" + id.get() + "')");
            return Optional.empty();
        }
        return id;
    }

    private Optional<String> user() {
        Optional<String> user = map.text("user");
        if (user.isPresent() && user.get().isBlank()) {
            map.error("user", "must not be empty");
            return Optional.empty();
        }
        if (user.isPresent() && !isPlain(user.get())) {
            map.error(
                    "user",
                    "must be at most " + LONGEST_USER + " printable characters, with no blank at either end (was '"
                            + user.get() + "')");
            return Optional.empty();
        }
        return user;
    }

    /** It also stands in the generated access list, on a line. */
    private static boolean isPlain(String user) {
        return user.length() <= LONGEST_USER && user.matches("[^ \\p{Cc}]([^\\p{Cc}]*[^ \\p{Cc}])?");
    }

    private Tls tls(YamlMap files) {
        files.allowOnly(new TreeSet<>(Set.of("ca", "certificate", "key")), Set.of());
        Optional<Path> authority = outside.path(files, "ca");
        Optional<Path> certificate = outside.path(files, "certificate");
        Optional<Path> key = outside.secret(files, "key");
        if (files.has("certificate") != files.has("key")) {
            String there = files.has("key") ? "key" : "certificate";
            files.error(there, "certificate and key come together");
        }
        return certificate.isPresent() && key.isPresent()
                ? new Tls(authority, certificate, key)
                : new Tls(authority, Optional.empty(), Optional.empty());
    }

    private void warn(List<URI> brokers) {
        brokers.stream()
                .filter(broker -> !MqttSettings.isEncrypted(broker) && !isThisMachine(broker.getHost()))
                .forEach(broker -> map.warning(
                        "brokers",
                        broker + " is not encrypted: others on the way can read and change what is sent;"
                                + " tls://host:port encrypts it"));
        if (map.has("tls") && brokers.stream().noneMatch(MqttSettings::isEncrypted)) {
            map.warning("tls", "is not used: no broker's address begins with tls://");
        }
    }

    private static boolean isThisMachine(String host) {
        return host.equals("localhost") || host.matches("127([.][0-9]{1,3}){3}") || host.equals("[::1]");
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
            if (uri.getScheme() != null
                    && SCHEMES.contains(uri.getScheme())
                    && uri.getHost() != null
                    && uri.getPort() > 0
                    && uri.getPort() <= 65535
                    && uri.toString().equals(uri.getScheme() + "://" + uri.getHost() + ":" + uri.getPort())) {
                return Optional.of(uri);
            }
        } catch (URISyntaxException e) {
            // Told below, with what is allowed.
        }
        map.error("brokers", ADDRESS + " (was '" + text + "')");
        return Optional.empty();
    }
}
