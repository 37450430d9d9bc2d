package burnerbridge.web.metrics;

import burnerbridge.measure.Metric;
import io.prometheus.metrics.expositionformats.ExpositionFormatWriter;
import io.prometheus.metrics.expositionformats.OpenMetricsTextFormatWriter;
import io.prometheus.metrics.expositionformats.PrometheusTextFormatWriter;
import io.prometheus.metrics.model.snapshots.CounterSnapshot;
import io.prometheus.metrics.model.snapshots.GaugeSnapshot;
import io.prometheus.metrics.model.snapshots.Labels;
import io.prometheus.metrics.model.snapshots.MetricSnapshot;
import io.prometheus.metrics.model.snapshots.MetricSnapshots;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.List;
import java.util.Map;

/** Writes a scrape in one of the text formats that collectors read. */
final class MetricsText {
    // Made by hand: what the library would choose depends on properties of the process.
    private static final MetricsText PLAIN = new MetricsText(PrometheusTextFormatWriter.builder()
            .setIncludeCreatedTimestamps(false)
            .build());

    private static final MetricsText OPEN_METRICS = new MetricsText(OpenMetricsTextFormatWriter.builder()
            .setCreatedTimestampsEnabled(false)
            .setExemplarsOnAllMetricTypesEnabled(false)
            .build());

    private final ExpositionFormatWriter writer;

    private MetricsText(ExpositionFormatWriter writer) {
        this.writer = writer;
    }

    /** OpenMetrics 1.0 for who names it and does not refuse it; the Prometheus text format 0.0.4 for all others. */
    static MetricsText wanted(String accept) {
        for (String choice : accept.split(",", -1)) {
            List<String> parts = List.of(choice.strip().split("\\s*;\\s*", -1));
            boolean refused = parts.stream().anyMatch(part -> part.matches("q=0([.]0{0,3})?"));
            if (parts.get(0).equalsIgnoreCase("application/openmetrics-text") && !refused) {
                return OPEN_METRICS;
            }
        }
        return PLAIN;
    }

    String contentType() {
        return writer.getContentType();
    }

    byte[] write(Scrape scrape) {
        MetricSnapshots.Builder snapshots = MetricSnapshots.builder();
        scrape.families().forEach(family -> snapshots.metricSnapshot(snapshot(family)));
        ByteArrayOutputStream text = new ByteArrayOutputStream();
        try {
            writer.write(text, snapshots.build());
        } catch (IOException e) {
            throw new UncheckedIOException("memory cannot be written", e);
        }
        return text.toByteArray();
    }

    private static MetricSnapshot snapshot(Scrape.Family family) {
        Metric metric = family.metric();
        if (metric.kind() == Metric.Kind.COUNTER) {
            CounterSnapshot.Builder counter =
                    CounterSnapshot.builder().name(metric.name()).help(metric.help());
            family.samples()
                    .forEach((values, value) -> counter.dataPoint(CounterSnapshot.CounterDataPointSnapshot.builder()
                            .labels(labels(metric, values))
                            .value(value)
                            .build()));
            return counter.build();
        }
        GaugeSnapshot.Builder gauge =
                GaugeSnapshot.builder().name(metric.name()).help(metric.help());
        for (Map.Entry<List<String>, Double> sample : family.samples().entrySet()) {
            gauge.dataPoint(GaugeSnapshot.GaugeDataPointSnapshot.builder()
                    .labels(labels(metric, sample.getKey()))
                    .value(sample.getValue())
                    .build());
        }
        return gauge.build();
    }

    private static Labels labels(Metric metric, List<String> values) {
        return Labels.of(metric.labels(), values);
    }
}
