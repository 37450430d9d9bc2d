package burnerbridge.simulator.demo;

import burnerbridge.simulator.plant.BurnerState;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.function.Function;

/** What the plant has and what came over MQTT, side by side; 24 lines of at most 79 columns. */
final class LiveTable {
    private static final int BAR = 24;
    private static final String COLUMNS = "%-18s %16s  %17s %-5s %-9s %7s";

    private static final int WIDEST_OF_PLANT = 16;
    private static final int WIDEST_OVER_MQTT = 17;

    private final List<PlantRow> rows;
    private final Function<String, Optional<Published>> published;
    private final String footer;
    private final Ink ink;

    /**
     * @param published the newest message of a point by its name
     * @param footer the last line, at most 79 columns
     */
    LiveTable(List<PlantRow> rows, Function<String, Optional<Published>> published, String footer, Ink ink) {
        this.rows = List.copyOf(rows);
        this.published = published;
        this.footer = footer;
        this.ink = ink;
    }

    List<String> lines(BurnerState state, Instant now) {
        List<String> lines = new ArrayList<>();
        lines.add(sequence(state));
        lines.add(ink.strong(
                String.format(Locale.ROOT, COLUMNS, "boiler-1", "plant itself", "over MQTT", "", "quality", "age")));
        for (PlantRow row : rows) {
            lines.add(line(row, state, now));
        }
        lines.add(footer);
        return lines;
    }

    /** The phase, a bar of its progress where it has a set length, and how many points are good. */
    String sequence(BurnerState state) {
        String phase = String.format(Locale.ROOT, "%-12s", state.phase().text());
        String painted = state.lockout() ? ink.bad(phase) : ink.strong(phase);
        return painted + String.format(Locale.ROOT, "%-48s", progress(state)) + goodPoints();
    }

    /** How many of the points came over MQTT as good. */
    String goodPoints() {
        long good = rows.stream()
                .filter(r ->
                        published.apply(r.point()).filter(Published::isGood).isPresent())
                .count();
        return good + " of " + rows.size() + " good";
    }

    private static String progress(BurnerState state) {
        long seconds = state.inPhase().toSeconds();
        Duration length = state.phaseLength();
        if (length.isZero()) {
            return " for " + seconds + " s";
        }
        int done = (int) Math.min(BAR, BAR * state.inPhase().toMillis() / length.toMillis());
        return "[" + "#".repeat(done) + ".".repeat(BAR - done) + "] " + seconds + " of " + length.toSeconds() + " s";
    }

    private String line(PlantRow row, BurnerState state, Instant now) {
        Optional<Published> message = published.apply(row.point());
        String plain = String.format(
                Locale.ROOT,
                COLUMNS,
                row.point(),
                shortened(row.value().apply(state), WIDEST_OF_PLANT),
                shortened(message.map(LiveTable::shownValue).orElse("-"), WIDEST_OVER_MQTT),
                message.map(Published::unit).orElse(""),
                message.map(Published::quality).orElse("-"),
                message.flatMap(m -> m.age(now)).map(LiveTable::seconds).orElse("-"));
        return message.map(m -> ink.quality(m.quality(), plain)).orElse(plain);
    }

    /** A value that is no longer good stands in brackets. */
    private static String shownValue(Published message) {
        if (!message.value().isEmpty()) {
            return message.value();
        }
        return message.lastGood().isEmpty() ? "-" : "(" + message.lastGood() + ")";
    }

    private static String shortened(String text, int most) {
        return text.length() <= most ? text : text.substring(0, most - 1) + "~";
    }

    private static String seconds(Duration age) {
        double seconds = age.toMillis() / 1000.0;
        return String.format(Locale.ROOT, seconds < 100 ? "%.1f s" : "%.0f s", seconds);
    }
}
