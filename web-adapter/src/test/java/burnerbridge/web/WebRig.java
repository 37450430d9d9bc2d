package burnerbridge.web;

import burnerbridge.health.HealthReport;
import burnerbridge.measure.MetricSink;
import burnerbridge.measure.MetricSource;
import burnerbridge.model.HandClock;
import burnerbridge.site.WebSettings;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;

/** The port, with pages that a test changes and time that it moves. */
final class WebRig implements AutoCloseable {
    final HandClock clock = new HandClock();
    volatile @Nullable HealthReport report;
    volatile MetricSource metrics = MetricSource.NONE;
    private final WebAdapter adapter;

    WebRig() throws WebStartException {
        this(WebSettings.onLoopback(0), Map.of());
    }

    WebRig(WebSettings settings, Map<String, String> environment) throws WebStartException {
        report = new HealthReport(true, List.of(), true, List.of(), "quillmere", "0.1.0", clock.now(), true);
        adapter = new WebAdapter(settings, new Pages(this::report, sink -> metrics.measure(sink)), clock, environment);
        adapter.start();
    }

    private HealthReport report() {
        HealthReport present = report;
        if (present == null) {
            throw new IllegalStateException("a fault of a test");
        }
        return present;
    }

    int port() {
        return adapter.port();
    }

    WebAdapter adapter() {
        return adapter;
    }

    String ask(String text) throws IOException {
        return RawClient.ask(port(), text);
    }

    int status(String text) throws IOException {
        return RawClient.status(ask(text));
    }

    /** A number that the port counts of itself, by the name of its metric and the values of its labels. */
    double counted(String name) {
        Map<String, Double> samples = new ConcurrentHashMap<>();
        MetricSink sink = (metric, value, labels) ->
                samples.put(metric.name() + (labels.length == 0 ? "" : " " + String.join(" ", labels)), value);
        adapter.measure(sink);
        return samples.getOrDefault("burner_bridge_web_" + name, 0.0);
    }

    static long threads() {
        return Thread.getAllStackTraces().keySet().stream()
                .filter(thread -> thread.getName().startsWith("web"))
                .count();
    }

    /** Open files of this process, sockets among them. */
    static long openFiles() throws IOException {
        try (Stream<Path> all = Files.list(Path.of("/proc/self/fd"))) {
            return all.count();
        }
    }

    @Override
    public void close() {
        adapter.close();
    }
}
