package burnerbridge.web.metrics;

import burnerbridge.measure.Metric;
import burnerbridge.measure.MetricSink;
import burnerbridge.measure.MetricSource;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;

/**
 * Everything that a source counts at one moment. What no collector would take is left out and is a defect of the source:
 * a second sample with the same labels, another metric of the same name, a name of somebody else's, a count that goes
 * down.
 */
public final class Scrape implements MetricSink {
    /** So that what belongs to the bridge is found together. */
    static final String PREFIX = "burner_bridge_";

    /** Endings with which collectors mean parts of other kinds of metrics. */
    private static final List<String> TAKEN_ENDINGS = List.of("_created", "_bucket", "_info", "_count", "_sum");

    private final Map<String, Family> families = new TreeMap<>();
    private final Set<String> defects = new LinkedHashSet<>();

    /** A metric and its samples, by the values of its labels. */
    record Family(Metric metric, Map<List<String>, Double> samples) {}

    private Scrape() {}

    public static Scrape of(MetricSource source) {
        Scrape scrape = new Scrape();
        source.measure(scrape);
        return scrape;
    }

    /** What was left out, and why; each a sentence without a full stop, none of them twice. */
    public Set<String> defects() {
        return Collections.unmodifiableSet(defects);
    }

    /** By their names. */
    Iterable<Family> families() {
        return families.values();
    }

    @Override
    public void sample(Metric metric, double value, String... labelValues) {
        if (!metric.name().startsWith(PREFIX) || TAKEN_ENDINGS.stream().anyMatch(metric.name()::endsWith)) {
            defects.add(metric.name() + ": a name that is not the bridge's own");
            return;
        }
        if (metric.labels().size() != labelValues.length) {
            defects.add(metric.name() + ": labels " + metric.labels() + " and " + labelValues.length + " values");
            return;
        }
        if (metric.kind() == Metric.Kind.COUNTER && !(value >= 0 && value < Double.POSITIVE_INFINITY)) {
            defects.add(metric.name() + ": no count: " + value);
            return;
        }
        Family family = families.computeIfAbsent(metric.name(), name -> new Family(metric, new LinkedHashMap<>()));
        if (!family.metric().equals(metric)) {
            defects.add(metric.name() + ": two metrics of one name");
            return;
        }
        if (family.samples().putIfAbsent(List.of(labelValues), value) != null) {
            defects.add(metric.name() + ": two samples with the same labels");
        }
    }
}
