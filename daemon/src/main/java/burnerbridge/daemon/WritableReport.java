package burnerbridge.daemon;

import burnerbridge.site.permit.Askers;
import burnerbridge.site.permit.Purpose;
import burnerbridge.site.permit.Silence;
import burnerbridge.site.permit.Storage;
import java.io.PrintWriter;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.stream.Collectors;

/** What could be written and by whom, in a section of its own, so that nobody has to look for it; with the caution. */
final class WritableReport {
    private static final int LABEL = 13;
    /** Of a terminal's eighty columns what the label leaves. */
    private static final int TEXT = 80 - LABEL;

    private static final double MILLIS_A_DAY = 86_400_000;
    private static final double DAYS_A_YEAR = 365.25;

    private final List<Writable> writable;
    private final Path folder;

    WritableReport(List<Writable> writable, Path folder) {
        this.writable = writable;
        this.folder = folder;
    }

    void print(PrintWriter out) {
        out.println();
        if (writable.isEmpty()) {
            out.println("Writable: nothing. No permit is in site.yaml: nobody on BACnet or MQTT can");
            out.println("change anything in a controller, and only functions 1 to 4 are ever sent.");
        } else {
            out.println("Writable: " + writable.size() + (writable.size() == 1 ? " point" : " points")
                    + ", and nothing else. None of it until a person has approved");
            out.println("it on the box: burner-bridge permits " + folder);
            writable.forEach(one -> print(out, one));
        }
        out.println();
        Caution.FULL.forEach(out::println);
        out.println();
    }

    /** One permit, without an empty line around. */
    static void print(PrintWriter out, Writable one) {
        out.println("  " + one.point().id());
        line(
                out,
                "row",
                one.origin().text() + "; in the manual: " + one.origin().source());
        line(
                out,
                "address",
                one.definition().addressText() + ", unit " + one.controller().unit() + " of line "
                        + one.controller().line());
        line(out, "function", Integer.toString(one.permit().function()));
        one.permit().asked().ifPresent(asked -> print(out, one, asked));
        one.permit()
                .beat()
                .ifPresent(beat -> line(
                        out,
                        "heartbeat",
                        "every " + Intervals.text(beat.every()) + ", " + Writable.pattern(beat.pattern())
                                + "; by the bridge alone"));
        line(out, "memory", memory(one.permit().storage(), one.permit().purpose()));
        line(out, "reason", one.permit().reason());
    }

    private static void print(PrintWriter out, Writable one, Purpose.Asked asked) {
        line(out, "values", one.values(asked.allowed()));
        asked.step().ifPresent(step -> line(out, "step", "at most " + one.difference(step) + " a write"));
        line(out, "interval", "at least " + Intervals.text(asked.interval()) + " between two writes");
        line(out, "asked by", askers(asked.from(), asked.mqttPriority()));
        asked.silence().ifPresent(silence -> line(out, "silence", silence(one, silence)));
    }

    /** One more line of it. */
    static void line(PrintWriter out, String label, String text) {
        String before = "    " + label;
        for (String part : wrapped(text)) {
            out.println(before + " ".repeat(LABEL - before.length()) + part);
            before = "";
        }
    }

    /** In lines that fit, as far as words do. */
    private static List<String> wrapped(String text) {
        List<String> lines = new ArrayList<>(List.of(""));
        for (String word : text.split(" ")) {
            String last = lines.get(lines.size() - 1);
            if (!last.isEmpty() && last.length() + 1 + word.length() > TEXT) {
                lines.add(word);
            } else {
                lines.set(lines.size() - 1, last.isEmpty() ? word : last + " " + word);
            }
        }
        return lines;
    }

    private static String askers(Askers from, int priority) {
        List<String> who = new ArrayList<>();
        if (!from.bacnet().isEmpty()) {
            who.add("BACnet from "
                    + from.bacnet().stream().map(Object::toString).collect(Collectors.joining(", ")));
        }
        if (from.mqtt()) {
            who.add("MQTT at priority " + priority);
        }
        return String.join("; ", who);
    }

    private static String silence(Writable one, Silence silence) {
        return "after " + Intervals.text(silence.after())
                + Writable.written(silence)
                        .map(value -> ": write " + one.value(value))
                        .orElseGet(() -> ": nothing is written; the controller lets go by itself"
                                + one.controller()
                                        .type()
                                        .options()
                                        .watchdog()
                                        .map(time -> " after " + Intervals.text(time))
                                        .orElse(""));
    }

    private static String memory(Storage storage, Purpose purpose) {
        if (storage.isVolatile()) {
            return "volatile, takes any number of writes";
        }
        long writes = storage.lifetimeWrites().orElseThrow();
        Duration interval =
                purpose instanceof Purpose.Asked asked ? asked.interval() : ((Purpose.Beat) purpose).every();
        double days = interval.multipliedBy(writes).toMillis() / MILLIS_A_DAY;
        String time = days < DAYS_A_YEAR
                ? String.format(Locale.ROOT, "%.1f days", days)
                : String.format(Locale.ROOT, "%.1f years", days / DAYS_A_YEAR);
        return String.format(Locale.ROOT, "non-volatile, %,d writes: %s at one in ", writes, time)
                + Intervals.text(interval);
    }
}
