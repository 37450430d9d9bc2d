package burnerbridge.scan;

import burnerbridge.line.Fault;
import burnerbridge.line.LineCounts;
import burnerbridge.measure.Metric;
import burnerbridge.measure.MetricSink;
import burnerbridge.measure.MetricSource;
import burnerbridge.model.Quality;
import burnerbridge.plan.LinePlan;
import burnerbridge.plan.Prediction;
import burnerbridge.poll.LineLink;
import burnerbridge.poll.LinePoller;
import burnerbridge.poll.pace.IntervalPace;
import burnerbridge.site.ControllerDefinition;
import burnerbridge.site.SitePoint;
import burnerbridge.site.UnitId;
import burnerbridge.table.ControllerLink;
import burnerbridge.table.ValueTable;
import java.math.BigDecimal;
import java.time.Duration;
import java.util.List;
import java.util.Locale;

/** What is counted and measured of the lines, their controllers and the points. */
public final class LineMetrics implements MetricSource {
    private static final Metric CONNECTED =
            Metric.gauge("burner_bridge_line_connected", "1 while the line is connected, else 0.", "line");
    private static final Metric CONNECTIONS =
            Metric.counter("burner_bridge_line_connections", "How often the connection or port was opened.", "line");
    private static final Metric UNASKED = Metric.counter(
            "burner_bridge_line_unasked_bytes_found",
            "How often bytes that nobody had asked for were found on the line and thrown away.",
            "line");
    private static final Metric TRANSACTIONS = Metric.counter(
            "burner_bridge_transactions",
            "Requests that left, by what became of them: answered, refused with an exception, silent, broken.",
            "line",
            "unit",
            "outcome");
    private static final Metric FAULTS = Metric.counter(
            "burner_bridge_transaction_faults",
            "Broken transactions, by what was wrong with the reply.",
            "line",
            "fault");
    private static final Metric LOAD = Metric.gauge(
            "burner_bridge_line_load_ratio", "The share of the last minute for which the line was taken up.", "line");
    private static final Metric PREDICTED = Metric.gauge(
            "burner_bridge_line_predicted_load_ratio", "The share of its time that the read plan foretells.", "line");
    private static final Metric OVERLOADED = Metric.gauge(
            "burner_bridge_line_overloaded", "1 while more is wanted of the line than it can do, else 0.", "line");
    private static final Metric UP = Metric.gauge(
            "burner_bridge_controller_up", "1 while the controller answers, else 0.", "line", "controller");
    private static final Metric ACHIEVED = Metric.gauge(
            "burner_bridge_read_interval_seconds",
            "The interval at which reads are answered of late; every is the one that is wanted, in seconds.",
            "line",
            "controller",
            "every");
    private static final Metric LEFT_OUT = Metric.counter(
            "burner_bridge_reads_left_out",
            "Turns that were left out since the line was busy with others.",
            "line",
            "controller",
            "every");
    private static final Metric POINTS =
            Metric.gauge("burner_bridge_points", "How many points have which quality.", "quality");

    private final List<LinePoller> pollers;
    private final ValueTable table;

    public LineMetrics(List<LinePoller> pollers, ValueTable table) {
        this.pollers = List.copyOf(pollers);
        this.table = table;
    }

    @Override
    public void measure(MetricSink sink) {
        pollers.forEach(poller -> line(poller, sink));
        controllers(sink);
        points(sink);
    }

    private void line(LinePoller poller, MetricSink sink) {
        LinePlan plan = poller.plan();
        String line = plan.line().name().text();
        LineCounts counts = poller.counts();
        sink.sample(CONNECTED, poller.link().state() == LineLink.State.CONNECTED ? 1 : 0, line);
        sink.sample(CONNECTIONS, counts.connections(), line);
        sink.sample(UNASKED, counts.unasked(), line);
        for (Fault fault : Fault.values()) {
            sink.sample(FAULTS, counts.broken(fault), line, word(fault));
        }
        table.controllers().stream()
                .filter(controller -> controller.isOn(plan.line().name()))
                .map(ControllerDefinition::unit)
                .distinct()
                .forEach(unit -> transactions(poller, line, unit, sink));
        poller.load().ifPresent(load -> sink.sample(LOAD, load, line));
        sink.sample(PREDICTED, Prediction.of(plan).line().share(), line);
        sink.sample(OVERLOADED, poller.isOverloaded() ? 1 : 0, line);
        poller.paces().forEach(pace -> pace(pace, line, sink));
    }

    private static void transactions(LinePoller poller, String line, UnitId unit, MetricSink sink) {
        LineCounts counts = poller.counts(unit);
        String id = unit.toString();
        sink.sample(TRANSACTIONS, counts.answered(), line, id, "answered");
        sink.sample(TRANSACTIONS, counts.refused(), line, id, "refused");
        sink.sample(TRANSACTIONS, counts.silent(), line, id, "silent");
        long broken = counts.requests() - counts.answered() - counts.refused() - counts.silent();
        sink.sample(TRANSACTIONS, broken, line, id, "broken");
    }

    private static void pace(IntervalPace pace, String line, MetricSink sink) {
        String controller = pace.controller().name().text();
        String every = seconds(pace.every());
        pace.achieved().ifPresent(achieved -> sink.sample(ACHIEVED, achieved.toNanos() / 1e9, line, controller, every));
        sink.sample(LEFT_OUT, pace.skipped(), line, controller, every);
    }

    private void controllers(MetricSink sink) {
        for (ControllerDefinition controller : table.controllers()) {
            if (!controller.isGroup()) {
                sink.sample(
                        UP,
                        table.link(controller).state() == ControllerLink.State.UP ? 1 : 0,
                        controller.line().text(),
                        controller.name().text());
            }
        }
    }

    private void points(MetricSink sink) {
        long[] counts = new long[Quality.values().length];
        for (SitePoint point : table.points()) {
            counts[table.reading(point).quality().ordinal()]++;
        }
        for (Quality quality : Quality.values()) {
            sink.sample(POINTS, counts[quality.ordinal()], quality.name().toLowerCase(Locale.ROOT));
        }
    }

    private static String seconds(Duration time) {
        return BigDecimal.valueOf(time.toMillis(), 3).stripTrailingZeros().toPlainString();
    }

    private static String word(Fault fault) {
        return fault.name().toLowerCase(Locale.ROOT).replace('_', '-');
    }
}
