package burnerbridge.daemon.screen;

import burnerbridge.model.Quality;
import burnerbridge.model.Reason;
import burnerbridge.values.PointRow;
import java.time.Duration;
import java.util.function.Function;

/** The columns of the table, in their order. */
enum Column {
    CONTROLLER("controller", 8, 40, false, PointRow::controller),
    POINT("point", 12, 64, false, PointRow::point),
    ADDRESS("address (on the wire)", 12, 48, false, PointRow::addressText),
    REGISTERS("registers", 9, 19, false, row -> row.raw() == null ? "" : row.raw()),
    VALUE("value", 8, 30, true, Column::value),
    UNIT("unit", 1, 12, false, PointRow::unit),
    QUALITY("quality", 10, 30, false, Column::quality),
    AGE("age", 4, 7, true, row -> row.age() == null ? "" : age(row.age())),
    /** Of points that may be written; shown where there is one. */
    ASKED(
            "asked for",
            9,
            40,
            false,
            row -> row.asked() == null ? "" : row.asked().text(Column::age));

    private final String title;
    private final int least;
    private final int most;
    private final boolean toTheRight;
    private final Function<PointRow, String> cell;

    Column(String title, int least, int most, boolean toTheRight, Function<PointRow, String> cell) {
        this.title = title;
        this.least = least;
        this.most = most;
        this.toTheRight = toTheRight;
        this.cell = cell;
    }

    String title() {
        return title;
    }

    /** The width below which it is never squeezed. */
    int least() {
        return least;
    }

    /** The width above which it is cut, however much room there is. */
    int most() {
        return most;
    }

    boolean toTheRight() {
        return toTheRight;
    }

    String cell(PointRow row) {
        return TextWidth.harmless(cell.apply(row));
    }

    /** The last good value of a stale point is in brackets: it was read, some time ago. */
    private static String value(PointRow row) {
        if (row.value() != null) {
            return row.value().text();
        }
        return row.quality() == Quality.STALE && row.lastGood() != null
                ? "(" + row.lastGood().text() + ")"
                : "-";
    }

    private static String quality(PointRow row) {
        String reason = row.reason() == Reason.NONE ? "" : " " + row.reason().word();
        return row.quality().word() + reason + (row.exceptionCode() == 0 ? "" : " " + row.exceptionCode());
    }

    /** Rounded down to a whole number of the largest unit that fits. */
    static String age(Duration age) {
        if (age.toSeconds() < 100) {
            return age.toSeconds() + " s";
        }
        if (age.toMinutes() < 100) {
            return age.toMinutes() + " min";
        }
        return age.toHours() < 100 ? age.toHours() + " h" : age.toDays() + " d";
    }
}
