package burnerbridge.mqtt;

import burnerbridge.health.HealthSource;
import burnerbridge.health.Trouble;
import burnerbridge.measure.MetricSource;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/** What a part tells of itself. */
final class Told {
    private Told() {}

    static List<Trouble> troubles(HealthSource source) {
        List<Trouble> troubles = new ArrayList<>();
        source.tell(troubles::add);
        return troubles;
    }

    /** As people read it, with weight and place before each. */
    static List<String> sentences(HealthSource source) {
        return troubles(source).stream()
                .map(trouble -> trouble.weight().word() + " " + trouble.place().word() + " " + trouble.sentence())
                .toList();
    }

    /** Every sample by its name and label values; fails where one comes twice or is not as its metric says. */
    static Map<String, Double> figures(MetricSource source) {
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
