package burnerbridge.benchmark.transactions;

import burnerbridge.benchmark.measure.Aim;
import burnerbridge.benchmark.measure.Figure;
import burnerbridge.benchmark.measure.Figures;
import burnerbridge.benchmark.measure.Spread;
import java.io.PrintWriter;
import java.util.List;
import java.util.Locale;

/** The measurement as tables of Markdown. */
final class Report {
    private final PrintWriter out;
    private final Figures figures;
    private String title = "";
    private Aim aim = Aim.NONE;

    Report(PrintWriter out, Figures figures) {
        this.out = out;
        this.figures = figures;
    }

    void say(String line) {
        out.println(line);
        out.flush();
    }

    /** @param aimedAt for the ratio of each row */
    void beginBoth(String text, Aim aimedAt) {
        begin(text, aimedAt);
        say("| registers | ours, µs | libmodbus, µs | ratio of medians | ratio over rounds"
                + " | ours CPU, µs: thread, process | libmodbus CPU, µs |");
        say("|---|---|---|---|---|---|---|");
    }

    private void begin(String text, Aim aimedAt) {
        title = text;
        aim = aimedAt;
        say("");
        say(text);
        say("");
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
        figures.add(figure(asked, ours)
                .beside("libmodbus", referenceMicros.median())
                .aiming(aim));
    }

    void beginOurs(String text) {
        begin(text, Aim.NONE);
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
        figures.add(figure(asked, ours));
    }

    private Figure figure(Asked asked, Rounds ours) {
        String registers = asked.registers() + (asked.registers() == 1 ? " register" : " registers");
        return Figure.quartiles(title + "; " + registers, "µs", ours.micros());
    }
}
