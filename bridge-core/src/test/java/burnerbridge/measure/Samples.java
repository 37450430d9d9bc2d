package burnerbridge.measure;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import org.jspecify.annotations.Nullable;

/** Takes samples for a test to look at; refuses what no format could show. */
public final class Samples implements MetricSink {
    private final Map<String, Double> all = new LinkedHashMap<>();

    public static Samples of(MetricSource source) {
        Samples samples = new Samples();
        source.measure(samples);
        return samples;
    }

    @Override
    public void sample(Metric metric, double value, String... labelValues) {
        if (labelValues.length != metric.labels().size()) {
            throw new AssertionError(metric.name() + " has labels " + metric.labels());
        }
        String key = key(metric.name(), labelValues);
        if (all.put(key, value) != null) {
            throw new AssertionError(key + " was sampled twice");
        }
    }

    private static String key(String name, String... labelValues) {
        return name + List.of(labelValues);
    }

    /** The value of one sample. */
    public double value(String name, String... labelValues) {
        String key = key(name, labelValues);
        return Objects.requireNonNull(all.get(key), () -> key + " is not among " + all.keySet());
    }

    public @Nullable Double valueOrNull(String name, String... labelValues) {
        return all.get(key(name, labelValues));
    }
}
