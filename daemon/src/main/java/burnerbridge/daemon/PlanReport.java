package burnerbridge.daemon;

import burnerbridge.plan.LinePlan;
import burnerbridge.plan.Prediction;
import burnerbridge.plan.Prediction.Load;
import burnerbridge.plan.Prediction.RowCost;
import burnerbridge.site.ControllerDefinition;
import java.io.PrintWriter;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;

/** What is foretold of a line: its load, the scan time of each controller and interval, and the rows that cost most. */
final class PlanReport {
    private static final int DEAREST = 5;
    /** Of a line's time; a row that costs less is not worth a thought. */
    private static final double LEAST_COST = 0.001;

    private final LinePlan plan;
    private final Prediction prediction;

    PlanReport(LinePlan plan) {
        this.plan = plan;
        this.prediction = Prediction.of(plan);
    }

    /** The reads of one controller at one interval. */
    private record Part(ControllerDefinition controller, Duration every, Load load) {}

    void print(PrintWriter out) {
        double rate = plan.blocks().stream()
                .mapToDouble(block -> 1e9 / block.every().toNanos())
                .sum();
        Load line = prediction.line();
        out.println(String.format(
                Locale.ROOT,
                "Line %s: %s, %d reads, %.2f a second",
                plan.line().name(),
                plan.line().endpoint(),
                line.reads(),
                rate));
        if (plan.blocks().isEmpty()) {
            return;
        }
        out.println("  foretold: busy for " + percent(line.share()) + " of its time; all reads once in "
                + millis(line.scan()) + " ms");
        AlignedRows rows = new AlignedRows("controller", "every", "reads", "scan", "of the line's time");
        for (Part part : parts()) {
            rows.add(
                    part.controller().name().text(),
                    Intervals.text(part.every()),
                    Integer.toString(part.load().reads()),
                    millis(part.load().scan()) + " ms",
                    percent(part.load().share()));
        }
        rows.print(out);
        AlignedRows dear = new AlignedRows("dearest rows", "of the line's time");
        dearest().forEach(row -> dear.add(row.point().id().toString(), percent(row.share())));
        dear.print(out);
    }

    private List<RowCost> dearest() {
        return prediction.dearest(DEAREST).stream()
                .filter(row -> row.share() >= LEAST_COST)
                .toList();
    }

    private List<Part> parts() {
        List<Part> parts = new ArrayList<>();
        prediction
                .scans()
                .forEach((controller, byInterval) ->
                        byInterval.forEach((every, load) -> parts.add(new Part(controller, every, load))));
        return parts;
    }

    /** For programs: the same, in whole microseconds and millionths of the line's time. */
    Map<String, Object> members() {
        Load line = prediction.line();
        return new JsonMembers()
                .number("reads", line.reads())
                .number("scan-us", micros(line.scan()))
                .number("load-ppm", millionths(line.share()))
                .put(
                        "parts",
                        parts().stream()
                                .map(part -> new JsonMembers()
                                        .put("controller", part.controller().name())
                                        .number("every-ms", part.every().toMillis())
                                        .number("reads", part.load().reads())
                                        .number("scan-us", micros(part.load().scan()))
                                        .number(
                                                "load-ppm",
                                                millionths(part.load().share()))
                                        .map())
                                .toList())
                .put(
                        "dearest",
                        dearest().stream()
                                .map(row -> new JsonMembers()
                                        .put("point", row.point().id())
                                        .number("load-ppm", millionths(row.share()))
                                        .map())
                                .toList())
                .map();
    }

    private static long micros(Duration time) {
        return time.toNanos() / 1_000;
    }

    private static long millionths(double share) {
        return Math.round(share * 1_000_000);
    }

    private static String millis(Duration time) {
        return String.format(Locale.ROOT, "%.1f", time.toNanos() / 1e6);
    }

    private static String percent(double share) {
        return String.format(Locale.ROOT, "%.1f %%", 100 * share);
    }
}
