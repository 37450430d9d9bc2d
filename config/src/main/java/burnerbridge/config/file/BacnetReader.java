package burnerbridge.config.file;

import burnerbridge.config.yaml.YamlMap;
import burnerbridge.site.BacnetOptions;
import burnerbridge.site.BacnetSettings;
import burnerbridge.site.ObjectNames;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.Set;
import java.util.TreeSet;

/** Reads the {@code bacnet} part of {@code site.yaml}. */
final class BacnetReader {
    private static final int PORT = 47808;
    private static final int MOST_REQUESTS = 100_000;
    private static final int MOST_SUBSCRIPTIONS = 10_000;

    private final YamlMap map;

    BacnetReader(YamlMap map) {
        this.map = map;
    }

    Optional<BacnetSettings> read() {
        map.allowOnly(
                ordered(
                        "device-instance",
                        "device-name",
                        "bind",
                        "port",
                        "broadcast",
                        "vendor-identifier",
                        "object-types",
                        "object-names",
                        "foreign-device",
                        "requests-per-second",
                        "subscriptions",
                        "endless-subscriptions"),
                Set.of("layout"));
        OptionalInt instance = map.requiredInteger(
                "device-instance",
                0,
                SiteFileReader.LAST_INSTANCE,
                "ask the owner of the building network for a free one");
        Optional<String> bind = map.requiredText("bind", "the address of the building network's interface, or 0.0.0.0");
        Optional<String> broadcast = map.text("broadcast");
        boolean bindIsSound = isAddress(map, "bind", bind) && bind.isPresent();
        boolean sound = isAddress(map, "broadcast", broadcast) && bindIsSound;
        BacnetOptions options = options();
        if (instance.isEmpty() || !sound) {
            return Optional.empty();
        }
        return Optional.of(new BacnetSettings(
                instance.getAsInt(),
                map.text("device-name").orElse("burner-bridge-" + instance.getAsInt()),
                bind.orElseThrow(),
                map.integer("port", 1, 65535).orElse(PORT),
                broadcast,
                map.integer("vendor-identifier", 0, 65535).orElse(0),
                options));
    }

    private BacnetOptions options() {
        return new BacnetOptions(
                map.word("object-types", ordered("all", "basic"))
                        .filter("basic"::equals)
                        .isPresent(),
                objectNames(),
                map.map("foreign-device").flatMap(BacnetReader::registration),
                map.integer("requests-per-second", 1, MOST_REQUESTS).orElse(BacnetOptions.USUAL_REQUESTS_PER_SECOND),
                map.integer("subscriptions", 1, MOST_SUBSCRIPTIONS).orElse(BacnetOptions.USUAL_SUBSCRIPTIONS),
                map.word("endless-subscriptions", ordered("allowed", "refused"))
                        .filter("allowed"::equals)
                        .isPresent());
    }

    private ObjectNames objectNames() {
        Optional<String> template = map.text("object-names");
        if (template.isEmpty()) {
            return ObjectNames.USUAL;
        }
        try {
            return new ObjectNames(template.get());
        } catch (IllegalArgumentException e) {
            map.error("object-names", String.valueOf(e.getMessage()));
            return ObjectNames.USUAL;
        }
    }

    private static Optional<BacnetOptions.Registration> registration(YamlMap map) {
        map.allowOnly(ordered("host", "port", "lifetime"), Set.of());
        Optional<String> host = map.requiredText("host", "the address of the broadcast management device");
        boolean sound = isAddress(map, "host", host);
        int port = map.integer("port", 1, 65535).orElse(PORT);
        int seconds = map.integer("lifetime", 30, 65535).orElse(300);
        return sound ? host.map(h -> new BacnetOptions.Registration(h, port, seconds)) : Optional.empty();
    }

    private static Set<String> ordered(String... words) {
        return new TreeSet<>(List.of(words));
    }

    private static boolean isAddress(YamlMap map, String key, Optional<String> address) {
        String octet = "(25[0-5]|2[0-4]\\d|1?\\d?\\d)";
        if (address.isPresent() && !address.get().matches(octet + "(\\." + octet + "){3}")) {
            map.error(key, "must be an IPv4 address, like 192.0.2.10 (was '" + address.get() + "')");
            return false;
        }
        return true;
    }
}
