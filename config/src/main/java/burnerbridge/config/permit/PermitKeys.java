package burnerbridge.config.permit;

import burnerbridge.config.yaml.YamlMap;
import java.time.Duration;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;

/** The keys of a permit. */
final class PermitKeys {
    static final String POINT = "point";
    static final String FROM = "from";
    static final String RANGE = "range";
    static final String STATES = "states";
    static final String STEP = "step";
    static final String INTERVAL = "interval";
    static final String STORAGE = "storage";
    static final String LIFETIME_WRITES = "lifetime-writes";
    static final String FUNCTION = "function";
    static final String MQTT_PRIORITY = "mqtt-priority";
    static final String SILENCE_AFTER = "silence-after";
    static final String ON_SILENCE = "on-silence";
    static final String EVERY = "every";
    static final String PATTERN = "pattern";
    static final String REASON = "reason";

    /** What only a permit has for which somebody asks. */
    static final Set<String> OF_ASKING =
            ordered(FROM, RANGE, STATES, STEP, INTERVAL, MQTT_PRIORITY, SILENCE_AFTER, ON_SILENCE);
    /** What only a heartbeat's has, for which nobody asks. */
    static final Set<String> OF_BEATING = ordered(EVERY, PATTERN);

    static final Set<String> ALL = all();

    private static final Duration SHORTEST = Duration.ofSeconds(1);
    static final Duration LONGEST = Duration.ofHours(24);
    private static final int LONGEST_REASON = 200;

    private PermitKeys() {}

    private static Set<String> ordered(String... words) {
        return new LinkedHashSet<>(List.of(words));
    }

    private static Set<String> all() {
        Set<String> all = new TreeSet<>(Set.of(POINT, STORAGE, LIFETIME_WRITES, FUNCTION, REASON));
        all.addAll(OF_ASKING);
        all.addAll(OF_BEATING);
        return all;
    }

    /** A time of 1 s to 24 h; empty where it is missing or wrong, and then it is told. */
    static Optional<Duration> time(YamlMap map, String key, String whatFor) {
        if (!map.has(key)) {
            missing(map, key, whatFor);
        }
        return map.duration(key, SHORTEST, LONGEST);
    }

    static void missing(YamlMap map, String key, String whatFor) {
        map.error(key, "is missing; " + whatFor);
    }

    /** Complains of keys that have no business here. */
    static void refuse(YamlMap map, Set<String> keys, String why) {
        keys.stream().filter(map::has).forEach(key -> map.errorAtKey(key, why));
    }

    /** It stands on a line of its own wherever the permit is shown. */
    static Optional<String> reason(YamlMap map) {
        Optional<String> reason = map.requiredText(REASON, "why anybody may write this, for whoever approves it");
        if (reason.isPresent() && !isLine(reason.get())) {
            map.error(
                    REASON, "must be 1 to " + LONGEST_REASON + " characters in one line (was '" + reason.get() + "')");
            return Optional.empty();
        }
        return reason;
    }

    private static boolean isLine(String text) {
        return text.codePointCount(0, text.length()) <= LONGEST_REASON && text.matches("\\P{Cc}*[^\\s\\p{Cc}]\\P{Cc}*");
    }
}
