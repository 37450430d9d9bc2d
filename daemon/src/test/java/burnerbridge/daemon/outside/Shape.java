package burnerbridge.daemon.outside;

import java.util.List;
import java.util.regex.Pattern;

/** A line of what a program prints without what moves: times, ages, measured numbers and the registers that hold them. */
final class Shape {
    /** A row of a table about a controller or a line, or of the demo's screen. */
    private static final Pattern MEASURED = Pattern.compile("(?:boiler|steam)-\\d[ ,].*|line [a-z-]+: .*");

    private static final List<Change> ALWAYS = List.of(
            new Change("\\d{4}-\\d\\d-\\d\\dT[\\d:.]+Z", "TIME"),
            new Change("process \\d+", "process #"),
            new Change("no reply to unit 1 [a-z-]+ wire [\\d.]+", "no reply to unit 1 #"),
            new Change("\"(validFor|sequence)\":\\d+", "\"$1\":#"),
            new Change("\"value\":-?\\d[\\d.]*", "\"value\":#"),
            new Change("\"0:(\\d+):85\":\\[-?\\d[\\d.E-]*]", "\"0:$1:85\":[#]"),
            new Change("burner-bridge \\d[\\w.-]*", "burner-bridge #"));
    private static final List<Change> OF_MEASURED = List.of(
            new Change("(?<![\\w:.-])[0-9A-F]{4}(?: [0-9A-F]{4})*(?![\\w.])", "#"),
            new Change("(?<![\\w:.-])-?\\d+(\\.\\d+)?(?![\\w:])", "#"));

    private record Change(Pattern what, String by) {
        Change(String what, String by) {
            this(Pattern.compile(what), by);
        }

        String in(String text) {
            return what.matcher(text).replaceAll(by);
        }
    }

    private Shape() {}

    static String of(String line) {
        return MEASURED.matcher(line).matches() ? ofScreen(line) : narrow(changed(line, ALWAYS));
    }

    /** Of a line of the demo's screen, all of which is measured. */
    static String ofScreen(String line) {
        return narrow(changed(changed(line, ALWAYS), OF_MEASURED));
    }

    /** Columns are as wide as what is in them. */
    private static String narrow(String line) {
        return line.stripTrailing().replaceAll(" +", " ");
    }

    private static String changed(String line, List<Change> changes) {
        String text = line;
        for (Change change : changes) {
            text = change.in(text);
        }
        return text;
    }
}
