package burnerbridge.benchmark.transactions;

import burnerbridge.benchmark.measure.Spread;
import java.io.PrintWriter;
import java.util.List;
import java.util.Locale;

/** The measurement as tables of Markdown. */
final class Report {
    private final PrintWriter out;

    Report(PrintWriter out) {
        this.out = out;
    }

    void say(String line) {
        out.println(line);
        out.flush();
    }

    void beginBoth(String title) {
        say("");
        say(title);
        say("");
        say("| registers | ours, µs | libmodbus, µs | ratio of medians | ratio over rounds"
                + " | ours CPU, µs: thread, process | libmodbus CPU, µs |");
        say("|---|---|---|---|---|---|---|");
    }

    void both(Asked asked, List<Rounds> sides) {
        Rounds ours = sides.get(0);
        Rounds reference = sides.get(1);
        Spread oursMicros = ours.micros();
        Spread referenceMicros = reference.micros();
        say(String.format(
                Locale.ROOT,
                "| %d | %s | %s | %.2f | %s | %.1f, %.1f | %.1f |",
                asked.registers(),
                oursMicros.quartiles(1),
                referenceMicros.quartiles(1),
                oursMicros.median() / referenceMicros.median(),
                ours.medianRatios(reference).range(2),
                ours.threadMicros(),
                ours.processMicros(),
                reference.processMicros()));
    }

    void beginOurs(String title) {
        say("");
        say(title);
        say("");
        say("| registers | ours, µs | ours CPU, µs: thread, process |");
        say("|---|---|---|");
    }

    void ours(Asked asked, Rounds ours) {
        say(String.format(
                Locale.ROOT,
                "| %d | %s | %.1f, %.1f |",
                asked.registers(),
                ours.micros().quartiles(1),
                ours.threadMicros(),
                ours.processMicros()));
    }
}
