package burnerbridge.scan;

import burnerbridge.model.Reason;
import burnerbridge.plan.LinePlan;
import burnerbridge.plan.Prediction;
import burnerbridge.plan.ReadBlock;
import burnerbridge.poll.LinePoller;
import burnerbridge.poll.pace.IntervalPace;
import burnerbridge.site.ControllerDefinition;
import burnerbridge.table.ControllerLink;
import burnerbridge.table.ValueTable;
import java.time.Duration;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import org.jspecify.annotations.Nullable;

/** The rows of one line: what its plan predicts beside what its poller measures. */
final class LineScan {
    private static final int MOST_NAMES = 8;
    private static final int LONGEST_DETAIL = 300;

    private final LinePoller poller;
    private final ValueTable table;
    private final LinePlan plan;
    private final Map<Interval, IntervalPace> paces = new HashMap<>();
    private final Map<Interval, List<String>> refused = new HashMap<>();

    private record Interval(int controller, Duration every) {}

    LineScan(LinePoller poller, ValueTable table) {
        this.poller = poller;
        this.table = table;
        this.plan = poller.plan();
        poller.paces().forEach(pace -> paces.put(of(pace.controller(), pace.every()), pace));
        plan.blocks().forEach(this::addRefused);
    }

    private static Interval of(ControllerDefinition controller, Duration every) {
        return new Interval(controller.ordinal(), every);
    }

    private void addRefused(ReadBlock block) {
        block.points().stream()
                .filter(point -> table.reading(point).reason() == Reason.REFUSED)
                .forEach(point -> refused.computeIfAbsent(
                                of(block.controller(), block.every()), interval -> new ArrayList<>())
                        .add(point.definition().name().text()));
    }

    List<ScanRow> rows() {
        Prediction prediction = Prediction.of(plan);
        List<ScanRow> rows = new ArrayList<>();
        rows.add(line(prediction.line()));
        prediction
                .scans()
                .forEach((controller, scans) ->
                        scans.forEach((every, load) -> rows.add(controller(controller, every, load))));
        return rows;
    }

    private ScanRow line(Prediction.Load load) {
        OptionalDouble measured = poller.load();
        return new ScanRow.Line(
                plan.line().name().text(),
                load.reads(),
                load.scan(),
                load.share(),
                measured.isPresent() ? (Double) measured.getAsDouble() : null);
    }

    private ScanRow controller(ControllerDefinition controller, Duration every, Prediction.Load load) {
        Interval interval = of(controller, every);
        Optional<IntervalPace> pace = Optional.ofNullable(paces.get(interval));
        List<String> names = refused.getOrDefault(interval, List.of());
        ControllerLink link = table.link(controller);
        return new ScanRow.Controller(
                plan.line().name().text(),
                controller.name().text(),
                every,
                load.reads(),
                load.scan(),
                orNull(pace.flatMap(IntervalPace::scan)),
                load.share(),
                plan.turnarounds().of(controller),
                orNull(poller.turnaround(controller)),
                orNull(pace.flatMap(IntervalPace::achieved)),
                pace.map(IntervalPace::skipped).orElse(0L),
                pace.map(IntervalPace::requests).orElse(0L),
                word(link),
                cut(link.detail()),
                names.subList(0, Math.min(MOST_NAMES, names.size())),
                names.size());
    }

    private static @Nullable Duration orNull(Optional<Duration> duration) {
        return duration.orElse(null);
    }

    private static String word(ControllerLink link) {
        return link.state() == ControllerLink.State.UP
                ? link.state().word()
                : link.cause().word();
    }

    private static String cut(String detail) {
        return detail.length() <= LONGEST_DETAIL ? detail : detail.substring(0, LONGEST_DETAIL) + "…";
    }
}
