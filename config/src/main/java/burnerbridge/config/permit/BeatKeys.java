package burnerbridge.config.permit;

import burnerbridge.config.problem.Durations;
import burnerbridge.config.type.TypeReader;
import burnerbridge.config.yaml.YamlMap;
import burnerbridge.site.PointFormat;
import burnerbridge.site.permit.Purpose;
import burnerbridge.site.permit.Purpose.Pattern;
import java.time.Duration;
import java.util.Optional;
import java.util.regex.Matcher;

/** Reads the keys of a heartbeat's permit, for which nobody asks. */
final class BeatKeys {
    private static final String TOGGLE = "toggle";
    private static final java.util.regex.Pattern COUNT = java.util.regex.Pattern.compile("count to (\\d{1,5})");
    private static final int MOST = 0xFFFF;

    private BeatKeys() {}

    /** Empty where something is missing or wrong; then it is told. */
    static Optional<Purpose> read(YamlMap map, Optional<PermitRow> row) {
        PermitKeys.refuse(
                map,
                PermitKeys.OF_ASKING,
                "is for what others ask for; a heartbeat is written by the bridge alone, "
                        + "as every and pattern say");
        Optional<Duration> every =
                PermitKeys.time(map, PermitKeys.EVERY, "how often the bridge writes the heartbeat, like 10 s");
        Optional<Pattern> pattern = pattern(map);
        boolean sound = row.isEmpty() || pattern.isEmpty() || isHeld(map, row.get(), pattern.get());
        row.flatMap(r -> r.options().watchdog())
                .filter(watchdog -> every.isPresent() && every.get().compareTo(watchdog) >= 0)
                .ifPresent(watchdog -> map.warning(
                        PermitKeys.EVERY,
                        "is no shorter than " + Durations.text(watchdog) + ", types."
                                + row.get().controller().type().name() + "." + TypeReader.WATCHDOG
                                + ": between two heartbeats the controller may let a demand go"));
        return sound ? every.flatMap(time -> pattern.map(p -> new Purpose.Beat(time, p))) : Optional.empty();
    }

    private static Optional<Pattern> pattern(YamlMap map) {
        Optional<String> text = map.requiredText(
                PermitKeys.PATTERN,
                "what the heartbeat writes: 'count to' and a number, like 'count to 255', or toggle");
        if (text.isEmpty()) {
            return Optional.empty();
        }
        if (text.get().equals(TOGGLE)) {
            return Optional.of(new Pattern.Toggle());
        }
        Matcher count = COUNT.matcher(text.get());
        int limit = count.matches() ? Integer.parseInt(count.group(1)) : 0;
        if (limit < 1 || limit > MOST) {
            map.error(
                    PermitKeys.PATTERN,
                    "must be 'count to' and 1 to " + MOST + ", like 'count to 255', or toggle (was '" + text.get()
                            + "')");
            return Optional.empty();
        }
        return Optional.of(new Pattern.Count(limit));
    }

    private static boolean isHeld(YamlMap map, PermitRow row, Pattern pattern) {
        if (!row.isEncodable() || !row.isWritableTable()) {
            return true;
        }
        Optional<String> objection = objection(row, pattern instanceof Pattern.Count count ? count.limit() : 1);
        objection.ifPresent(why -> map.error(
                PermitKeys.PATTERN,
                why + " (was '" + map.text(PermitKeys.PATTERN).orElse("") + "')"));
        return objection.isEmpty();
    }

    private static Optional<String> objection(PermitRow row, int most) {
        if (row.point().format() instanceof PointFormat.Floating) {
            return Optional.of("is for whole numbers and bits, and " + row.text() + " holds " + row.kind());
        }
        if (row.point().format().isBit()) {
            return most == 1 ? Optional.empty() : Optional.of("must be toggle, since " + row.text() + " is a bit");
        }
        for (long number = 0; number <= most && !row.point().states().isEmpty(); number++) {
            if (row.point().states().text(number).isEmpty()) {
                return Optional.of(row.text() + " has states, and none with the number " + number);
            }
        }
        return new RowValues(row).objectionToCount(most);
    }
}
