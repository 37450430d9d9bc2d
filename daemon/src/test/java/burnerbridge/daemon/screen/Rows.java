package burnerbridge.daemon.screen;

import burnerbridge.model.Quality;
import burnerbridge.model.Reason;
import burnerbridge.values.AskedFor;
import burnerbridge.values.PointRow;
import burnerbridge.values.PointRow.Shown;
import burnerbridge.values.Query;
import burnerbridge.values.RowSource;
import burnerbridge.values.Summary;
import java.math.BigDecimal;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.function.Consumer;
import org.jspecify.annotations.Nullable;

/** Rows that a test has made, in place of those of a bridge. */
final class Rows implements RowSource {
    static final Instant AT = Instant.parse("2026-11-25T08:00:00.250Z");

    final List<PointRow> rows = new ArrayList<>();
    final List<String> down = new ArrayList<>();
    final List<Query> asked = new ArrayList<>();

    static PointRow good(String point, String raw, @Nullable Object json, String text, String unit) {
        return row(point, raw, new Shown(json, text), unit, Reason.NONE, 0, null);
    }

    static PointRow good(String point, String text) {
        return good(point, "0000", text, text, "");
    }

    static PointRow not(Reason reason, String point, @Nullable Shown lastGood) {
        return row(point, null, null, "", reason, reason == Reason.REFUSED ? 2 : 0, lastGood);
    }

    static Shown number(String number) {
        return new Shown(new BigDecimal(number), number);
    }

    private static PointRow row(
            String point,
            @Nullable String raw,
            @Nullable Shown value,
            String unit,
            Reason reason,
            int exceptionCode,
            @Nullable Shown lastGood) {
        return new PointRow(
                "boiler-1",
                point,
                "holding-register",
                "40101",
                "100",
                raw,
                value,
                unit,
                reason,
                exceptionCode,
                AT,
                true,
                Duration.ofMillis(1500),
                lastGood,
                lastGood == null ? null : AT,
                null);
    }

    /** A point that may be written, and what is asked for. */
    static PointRow asked(PointRow row, AskedFor asked) {
        return new PointRow(
                row.controller(),
                row.point(),
                row.table(),
                row.address(),
                row.wire(),
                row.raw(),
                row.value(),
                row.unit(),
                row.reason(),
                row.exceptionCode(),
                row.readAt(),
                row.believed(),
                row.age(),
                row.lastGood(),
                row.lastGoodReadAt(),
                asked);
    }

    @Override
    public Summary read(Query query, Consumer<PointRow> row) {
        asked.add(query);
        rows.stream().skip(query.from()).limit(query.most()).forEach(row);
        return new Summary(
                AT,
                rows.size(),
                count(Quality.GOOD),
                count(Quality.UNCERTAIN),
                count(Quality.STALE),
                count(Quality.BAD),
                0,
                rows.size(),
                down,
                down.size());
    }

    private int count(Quality quality) {
        return (int) rows.stream().filter(row -> row.quality() == quality).count();
    }

    @Override
    public void close() {
        // Nothing is open.
    }
}
