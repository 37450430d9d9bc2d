package burnerbridge.benchmark.pace;

import burnerbridge.benchmark.measure.Aim;
import burnerbridge.benchmark.measure.Figure;
import burnerbridge.benchmark.measure.Figures;
import burnerbridge.benchmark.measure.Spread;
import burnerbridge.benchmark.pace.PaceCommand.Seen;
import burnerbridge.plan.LinePlan;
import burnerbridge.plan.Prediction;
import burnerbridge.plan.Turnarounds;
import java.io.PrintWriter;
import java.time.Duration;
import java.util.Locale;

/** The measurement as tables of Markdown. */
final class PaceReport {
    private static final Aim THREE_PERCENT = Aim.ratioWithin(0.97, 1.03);

    private final PrintWriter out;
    private final Figures figures;

    PaceReport(PrintWriter out, Figures figures) {
        this.out = out;
        this.figures = figures;
    }

    void say(String line) {
        out.println(line);
        out.flush();
    }

    void beginMaster() {
        say("");
        say("The pace of the device, by libmodbus: a read without the silence after it, ms");
        say("");
        say("| baud | turnaround told, ms | 10 registers | to the wire's | 125 registers | to the wire's | turnaround"
                + " seen, ms |");
        say("|---|---|---|---|---|---|---|");
    }

    void master(Seen seen) {
        say(String.format(
                Locale.ROOT,
                "| %d | %d | %s | %.3f | %s | %.3f | %.2f |",
                seen.wire().baud(),
                seen.turnaround(),
                seen.few().quartiles(1),
                seen.fewRatio(),
                seen.many().quartiles(1),
                seen.manyRatio(),
                seen.real()));
    }

    void beginScans() {
        say("");
        say("A scan of two controllers by the bridge");
        say("");
        say(
                "| baud | turnaround told, ms | reads | predicted for it, ms | predicted for the one seen, ms | measured, ms"
                        + " | to the first | to the second |");
        say("|---|---|---|---|---|---|---|---|");
    }

    void scan(Seen seen, LinePlan plan, Spread measured) {
        double told = predicted(plan, seen.turnaround());
        double real = predicted(plan, seen.real());
        say(String.format(
                Locale.ROOT,
                "| %d | %d | %d | %.1f | %.1f | %s | %.3f | %.3f |",
                seen.wire().baud(),
                seen.turnaround(),
                plan.blocks().size(),
                told,
                real,
                measured.quartiles(1),
                measured.median() / told,
                measured.median() / real));
        String what = "a scan at " + seen.wire().baud() + " baud of a device that turns round in " + seen.turnaround()
                + " ms";
        figures.add(Figure.quartiles(what, "ms", measured)
                .beside("foretold for the turnaround that libmodbus saw", real)
                .aiming(THREE_PERCENT));
    }

    /** What the bridge foretells for a turnaround in milliseconds, of which its own model knows nothing yet. */
    private static double predicted(LinePlan plan, double turnaround) {
        Turnarounds all = Turnarounds.all(Duration.ofNanos(Math.max(0, Math.round(turnaround * 1e6))));
        LinePlan known = new LinePlan(plan.line(), plan.blocks(), all);
        return Prediction.of(known).line().scan().toNanos() / 1e6;
    }
}
