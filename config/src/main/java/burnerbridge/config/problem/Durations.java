package burnerbridge.config.problem;

import java.time.Duration;
import java.util.Map;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** Durations as people write them: {@code 500 ms}, {@code 2 s}, {@code 15 min}, {@code 1 h}. */
public final class Durations {
    public static final String ALLOWED = "a number with ms, s, min or h, like '2 s'";

    private static final Pattern FORM = Pattern.compile("(\\d{1,9})\\s*(ms|s|min|h)");
    private static final Map<String, Long> MILLIS = Map.of("ms", 1L, "s", 1_000L, "min", 60_000L, "h", 3_600_000L);

    private Durations() {}

    public static Optional<Duration> parse(String text) {
        Matcher matcher = FORM.matcher(text);
        if (!matcher.matches()) {
            return Optional.empty();
        }
        long number = Long.parseLong(matcher.group(1));
        return Optional.of(Duration.ofMillis(number * MILLIS.getOrDefault(matcher.group(2), 1L)));
    }

    /** The shortest way to write a duration. */
    public static String text(Duration duration) {
        long millis = duration.toMillis();
        if (millis % 3_600_000 == 0 && millis > 0) {
            return millis / 3_600_000 + " h";
        }
        if (millis % 60_000 == 0 && millis > 0) {
            return millis / 60_000 + " min";
        }
        return millis % 1_000 == 0 ? millis / 1_000 + " s" : millis + " ms";
    }
}
