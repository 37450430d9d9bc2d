package burnerbridge.config.permit;

import burnerbridge.config.problem.Durations;
import burnerbridge.config.yaml.YamlMap;
import burnerbridge.site.permit.Storage;
import java.time.Duration;
import java.util.Locale;
import java.util.OptionalLong;

/** Warns of a permit that wears the controller's memory soon, even if its interval is kept exactly. */
final class WearCheck {
    private static final Duration YEAR = Duration.ofDays(365);
    private static final double MILLIS_A_DAY = 86_400_000;

    private WearCheck() {}

    /** @param key which says the interval */
    static void warn(YamlMap map, String key, Duration interval, Storage storage) {
        OptionalLong lifetime = storage.lifetimeWrites();
        if (lifetime.isEmpty()) {
            return;
        }
        Duration lasting = interval.multipliedBy(lifetime.getAsLong());
        if (lasting.compareTo(YEAR) < 0) {
            String writes = String.format(Locale.ROOT, "%,d", lifetime.getAsLong());
            map.warning(
                    key,
                    "at one write in " + Durations.text(interval) + ", " + writes + " writes last " + time(lasting)
                            + " (" + writes + " × " + Durations.text(interval)
                            + "), and then nothing is written any more" + advice(lifetime.getAsLong()));
        }
    }

    private static String time(Duration lasting) {
        double days = lasting.toMillis() / MILLIS_A_DAY;
        double hours = 24 * days;
        return days >= 1
                ? String.format(Locale.ROOT, "%.1f days", days)
                : hours >= 1
                        ? String.format(Locale.ROOT, "%.1f hours", hours)
                        : String.format(Locale.ROOT, "%.1f minutes", 60 * hours);
    }

    /** Where an interval that can be said makes them last a year. */
    private static String advice(long writes) {
        Duration least = Duration.ofMinutes((YEAR.toMinutes() + writes - 1) / writes);
        return least.compareTo(PermitKeys.LONGEST) > 0
                ? ""
                : "; at one in " + Durations.text(least) + " they last a year";
    }
}
