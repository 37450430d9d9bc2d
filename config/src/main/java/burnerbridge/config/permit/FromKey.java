package burnerbridge.config.permit;

import burnerbridge.config.yaml.YamlMap;
import burnerbridge.site.permit.AddressBlock;
import burnerbridge.site.permit.Askers;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;

/** Reads {@code from}: who may ask. */
final class FromKey {
    private static final String KEY = PermitKeys.FROM;
    private static final String BACNET = "bacnet";
    private static final String MQTT = "mqtt";
    private static final Set<String> KEYS = new TreeSet<>(Set.of(BACNET, MQTT));
    private static final Set<String> TRUTHS = new TreeSet<>(Set.of("true", "false"));

    private FromKey() {}

    /** Empty where it is missing or wrong; then it is told. */
    static Optional<Askers> read(YamlMap map, PermitPart site) {
        if (!map.has(KEY)) {
            PermitKeys.missing(map, KEY, "who may ask, like {bacnet: [192.0.2.0/24], mqtt: true}");
        }
        return map.map(KEY).flatMap(from -> askers(map, from, site));
    }

    private static Optional<Askers> askers(YamlMap map, YamlMap from, PermitPart site) {
        from.allowOnly(KEYS, Set.of());
        Optional<List<AddressBlock>> blocks = blocks(from);
        Optional<String> mqtt = from.word(MQTT, TRUTHS);
        if (blocks.isEmpty() || (from.has(MQTT) && mqtt.isEmpty())) {
            return Optional.empty();
        }
        Askers askers = new Askers(blocks.get(), mqtt.filter("true"::equals).isPresent());
        if (askers.bacnet().isEmpty() && !askers.mqtt()) {
            map.error(KEY, "lets nobody ask: name addresses under bacnet, or say mqtt: true");
            return Optional.empty();
        }
        boolean off = !askers.bacnet().isEmpty() && !site.bacnet();
        if (off) {
            from.error(BACNET, "lets BACnet ask, and the site has no part bacnet");
        }
        if (askers.mqtt() && !site.mqtt()) {
            from.error(MQTT, "lets MQTT ask, and the site has no part mqtt");
            return Optional.empty();
        }
        return off ? Optional.empty() : Optional.of(askers);
    }

    /** Empty where one of them is wrong. */
    private static Optional<List<AddressBlock>> blocks(YamlMap from) {
        List<AddressBlock> blocks = new ArrayList<>();
        List<YamlMap.Item> items = from.listOf(BACNET);
        for (YamlMap.Item item : items) {
            Optional<AddressBlock> block = AddressBlock.parse(item.text());
            block.ifPresent(blocks::add);
            if (block.isEmpty()) {
                from.error(
                        BACNET,
                        item,
                        "must be an IPv4 address or a block of them, like 192.0.2.10 or 192.0.2.0/24, with no bit set"
                                + " behind the prefix (was '" + item.text() + "')" + hint(item.text()));
            }
        }
        blocks.stream()
                .filter(block -> block.prefix() == 0)
                .forEach(block -> from.warning(BACNET, block + " lets every address ask"));
        boolean sound = blocks.size() == items.size() && (!from.has(BACNET) || from.holdsList(BACNET));
        return sound ? Optional.of(blocks) : Optional.empty();
    }

    /** Of an address in a block the block itself. */
    private static String hint(String text) {
        int slash = text.indexOf('/');
        Optional<AddressBlock> address = slash < 0 ? Optional.empty() : AddressBlock.parse(text.substring(0, slash));
        if (address.isEmpty() || !text.substring(slash + 1).matches("3[0-2]|[12]?\\d")) {
            return "";
        }
        int prefix = Integer.parseInt(text.substring(slash + 1));
        int mask = prefix == 0 ? 0 : -1 << 32 - prefix;
        return "; did you mean '" + new AddressBlock(address.get().address() & mask, prefix) + "'?";
    }
}
