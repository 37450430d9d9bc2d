package burnerbridge.benchmark.memory;

import burnerbridge.benchmark.measure.Aim;
import burnerbridge.benchmark.measure.Figure;
import burnerbridge.benchmark.measure.Figures;
import burnerbridge.benchmark.measure.Spread;
import burnerbridge.benchmark.program.JavaProgram;
import java.io.PrintWriter;
import java.util.List;
import java.util.Locale;
import java.util.function.ToDoubleFunction;

/** The runs as a table of Markdown, and as figures beside those without a limit. */
final class MemoryReport {
    private static final String REFERENCE = "without a limit";

    private final PrintWriter out;
    private final Figures figures;

    MemoryReport(PrintWriter out, Figures figures) {
        this.out = out;
        this.figures = figures;
    }

    void say(String line) {
        out.println(line);
        out.flush();
    }

    void begin() {
        say("");
        say("| Java, site | it may have | most in use, MiB | resident at the end, MiB | until all points are told, s"
                + " | processor time then, % of one |");
        say("|---|---|---|---|---|---|");
    }

    void row(JavaProgram java, Subject subject, Bounds bounds, Held held) {
        say(String.format(
                Locale.ROOT,
                "| %s, %s | %s | %.0f | %.0f | %.1f | %.1f |",
                java.version(),
                subject.name(),
                bounds.text(),
                held.mostMib(),
                held.residentMib(),
                held.secondsUntilAll(),
                held.processorShare()));
    }

    /** When all runs of a site on a Java are over. */
    void end(JavaProgram java, Subject subject, Bounds bounds, List<Held> held, List<Held> free) {
        String title = subject.name() + " in " + bounds.text() + ", Java " + java.version() + ": ";
        add(title + "most memory in use", "MiB", held, free, Held::mostMib, Aim.atMost(bounds.megabytes()));
        add(title + "until all points are told", "s", held, free, Held::secondsUntilAll, Aim.NONE);
        add(title + "processor time", "% of one", held, free, Held::processorShare, Aim.NONE);
    }

    private void add(
            String what, String unit, List<Held> held, List<Held> free, ToDoubleFunction<Held> quantity, Aim aim) {
        figures.add(Figure.range(what, unit, spread(held, quantity))
                .beside(REFERENCE, spread(free, quantity).median())
                .aiming(aim));
    }

    private static Spread spread(List<Held> runs, ToDoubleFunction<Held> quantity) {
        return Spread.of(runs.stream().mapToDouble(quantity).toArray());
    }
}
