package burnerbridge.web;

import burnerbridge.measure.Metric;
import burnerbridge.measure.MetricSink;
import burnerbridge.measure.MetricSource;
import java.util.Map;
import java.util.TreeMap;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.atomic.LongAdder;

/** Counts what is answered. The web thread writes, any may read. */
final class WebMetrics implements MetricSource {
    private static final Metric ANSWERS =
            Metric.counter("burner_bridge_web_answers", "Requests answered over HTTP, by status.", "status");

    private final Map<Integer, LongAdder> answers = new ConcurrentHashMap<>();

    void answered(int status) {
        answers.computeIfAbsent(status, any -> new LongAdder()).increment();
    }

    @Override
    public void measure(MetricSink sink) {
        new TreeMap<>(answers)
                .forEach((status, count) -> sink.sample(ANSWERS, (double) count.sum(), Integer.toString(status)));
    }
}
