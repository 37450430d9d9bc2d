package burnerbridge.bacnet;

import burnerbridge.health.HealthSource;
import burnerbridge.health.Trouble;
import burnerbridge.measure.MetricSource;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/** What a part tells of itself. */
public final class Told {
    private Told() {}

    public static List<Trouble> troubles(HealthSource source) {
        List<Trouble> troubles = new ArrayList<>();
        source.tell(troubles::add);
        return troubles;
    }

    /** Every sample by its name and label values; fails where one comes twice or is not as its metric says. */
    public static Map<String, Double> figures(MetricSource source) {
        Map<String, Double> figures = new LinkedHashMap<>();
        source.measure((metric, value, labels) -> {
            String sample = metric.name() + List.of(labels);
            if (labels.length != metric.labels().size() || figures.put(sample, value) != null) {
                throw new AssertionError("twice, or not as labelled: " + sample);
            }
        });
        return figures;
    }
}
