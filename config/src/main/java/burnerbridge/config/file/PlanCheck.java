package burnerbridge.config.file;

import burnerbridge.config.problem.Durations;
import burnerbridge.config.problem.Problems;
import burnerbridge.config.problem.Problems.Place;
import burnerbridge.plan.Late;
import burnerbridge.plan.Late.Why;
import burnerbridge.plan.LinePlan;
import burnerbridge.plan.Prediction;
import burnerbridge.plan.Prediction.RowCost;
import burnerbridge.plan.ReadBlock;
import burnerbridge.site.Site;
import burnerbridge.site.SitePoint;
import java.time.Duration;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.stream.Collectors;

/** Tells of lines that cannot keep the pace that is asked of them, as far as that can be known before anyone connects. */
public final class PlanCheck {
    /** Of a line's time; what is left is for repetitions, time-outs and probes (common practice). */
    private static final double MUCH = 0.7;

    private static final int MOST_NAMED = 3;

    private final Problems problems;

    public PlanCheck(Problems problems) {
        this.problems = problems;
    }

    /** @param site free of errors so far */
    public void run(Site site) {
        for (LinePlan plan : LinePlan.all(site.lines(), site.points())) {
            Prediction prediction = Prediction.of(plan);
            checkLoad(plan, prediction);
            checkLate(plan, prediction);
        }
    }

    private void checkLoad(LinePlan plan, Prediction prediction) {
        double share = prediction.line().share();
        if (share > MUCH) {
            List<RowCost> dearest = prediction.dearest(MOST_NAMED);
            warn(
                    plan,
                    "its reads take about " + percent(share) + " of its time, and more than " + percent(MUCH)
                            + " leaves too little for repetitions and for controllers that do not answer"
                            + (dearest.isEmpty() ? "" : "; the rows that cost most: " + costs(dearest)));
        }
    }

    private static String costs(List<RowCost> rows) {
        return rows.stream()
                .map(row -> row.point().id() + " " + percent(row.share()))
                .collect(Collectors.joining(", "));
    }

    private void checkLate(LinePlan plan, Prediction prediction) {
        Map<Why, Map<Duration, List<Late>>> late = new EnumMap<>(Why.class);
        for (Late one : prediction.late()) {
            late.computeIfAbsent(one.why(), why -> new LinkedHashMap<>())
                    .computeIfAbsent(one.block().every(), every -> new ArrayList<>())
                    .add(one);
        }
        late.forEach((why, byInterval) -> byInterval.forEach((every, some) -> tell(plan, why, every, some)));
    }

    private void tell(LinePlan plan, Why why, Duration every, List<Late> late) {
        Duration slowest =
                late.stream().map(Late::every).max(Duration::compareTo).orElse(every);
        String which = names(late.stream().map(Late::block).toList());
        String cannot =
                which + " will not be read every " + Durations.text(every) + ", but about every " + rounded(slowest);
        switch (why) {
            case TOO_LONG -> warn(plan, cannot + ": one read alone takes that long" + withPause(late));
            case LINE_OVERLOADED -> warn(plan, cannot + ": the line has no time for more");
            case CONTROLLER_OVERLOADED ->
                warn(plan, cannot + ": the controller has no time for more" + withPause(late));
            case HELD_UP ->
                problems.note(
                        place(),
                        "lines." + plan.line().name() + ": " + which + " may at times be read later than every "
                                + Durations.text(every) + ", when a longer read is under way");
        }
    }

    private static String withPause(List<Late> late) {
        Duration pause = late.get(0).block().controller().type().rules().pause();
        return pause.isZero() ? "" : ", with the pause of " + Durations.text(pause) + " that its type asks for";
    }

    private static String names(List<ReadBlock> blocks) {
        List<SitePoint> points =
                blocks.stream().flatMap(block -> block.points().stream()).toList();
        String first = points.stream()
                .limit(MOST_NAMED)
                .map(point -> point.id().toString())
                .collect(Collectors.joining(", "));
        int more = points.size() - MOST_NAMED;
        return first + (more > 0 ? " and " + more + " more" : "");
    }

    private void warn(LinePlan plan, String message) {
        problems.warning(place(), "lines." + plan.line().name() + ": " + message);
    }

    private static Place place() {
        return Place.wholeFile(SiteFile.NAME);
    }

    private static String percent(double share) {
        double percent = 100 * share;
        return String.format(Locale.ROOT, percent < 10 ? "%.1f %%" : "%.0f %%", percent);
    }

    /** To two digits or so, as it is an estimate. */
    private static String rounded(Duration interval) {
        double seconds = interval.toNanos() / 1e9;
        if (seconds < 1) {
            return Math.round(seconds * 100) * 10 + " ms";
        }
        return String.format(Locale.ROOT, seconds < 10 ? "%.1f s" : "%.0f s", seconds);
    }
}
