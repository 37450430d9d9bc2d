package burnerbridge.benchmark.lines;

import burnerbridge.benchmark.measure.Figures;
import burnerbridge.benchmark.measure.Spread;
import java.io.PrintWriter;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.function.ToDoubleFunction;

/** The runs as a table of Markdown, and virtual threads beside those of the platform. */
final class LinesReport {
    private final PrintWriter out;
    private final Figures figures;

    LinesReport(PrintWriter out, Figures figures) {
        this.out = out;
        this.figures = figures;
    }

    void begin(Load load) {
        say("");
        say(load.text());
        say("");
        say("| Java, line threads | reads/s asked | seen | late by > 0.1 s | longest gap, ms | daemon CPU, % of one"
                + " | resident, MiB | threads: all, of lines, carriers | plant CPU, % |");
        say("|---|---|---|---|---|---|---|---|---|");
    }

    void run(Load load, Contestant contestant, Measured measured) {
        ProcessState state = measured.state();
        say(String.format(
                Locale.ROOT,
                "| %s | %d | %.1f | %d | %.0f | %.1f | %.0f | %d, %d, %d | %.1f |",
                contestant.text(),
                load.readsASecond(),
                measured.readsASecond(),
                measured.seen().late(),
                measured.seen().longestGap() / 1e6,
                measured.processorShare(),
                measured.residentMib(),
                state.threads(),
                state.lineThreads(),
                state.carriers(),
                measured.plantShare()));
    }

    /** When all runs of a load are over. */
    void end(Load load, Map<Contestant, List<Measured>> runs) {
        ratios(runs);
        LinesFigures.of(load, runs).forEach(figures::add);
    }

    /** Of each run on virtual threads to the run of the same Java on the platform's before it. */
    private void ratios(Map<Contestant, List<Measured>> runs) {
        runs.forEach((contestant, virtual) -> {
            List<Measured> platform = runs.get(contestant.onPlatformThreads());
            if (contestant.kind() == Contestant.Kind.VIRTUAL && platform != null) {
                say("");
                say(contestant.java().version() + ", virtual to platform, median (least..most): CPU "
                        + ratio(virtual, platform, Measured::processorShare) + ", resident memory "
                        + ratio(virtual, platform, Measured::residentMib) + ", threads "
                        + ratio(virtual, platform, measured -> measured.state().threads()));
            }
        });
    }

    private static String ratio(List<Measured> some, List<Measured> others, ToDoubleFunction<Measured> figure) {
        double[] ratios = new double[some.size()];
        for (int i = 0; i < ratios.length; i++) {
            ratios[i] = figure.applyAsDouble(some.get(i)) / figure.applyAsDouble(others.get(i));
        }
        return Spread.of(ratios).range(3);
    }

    private void say(String line) {
        out.println(line);
        out.flush();
    }
}
