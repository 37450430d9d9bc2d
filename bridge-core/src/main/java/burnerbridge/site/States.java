package burnerbridge.site;

import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;

/**
 * The states of a point: numbers as the controller sends them, and their texts, in the list's order.
 *
 * @param severities of those states that are fault causes and say so
 */
public record States(Map<Long, String> texts, Map<Long, Severity> severities) {
    public static final States NONE = new States(Map.of());

    public States {
        texts = Collections.unmodifiableMap(new LinkedHashMap<>(texts));
        severities = Map.copyOf(severities);
    }

    /** States that are no fault causes. */
    public States(Map<Long, String> texts) {
        this(texts, Map.of());
    }

    public boolean isEmpty() {
        return texts.isEmpty();
    }

    public Optional<String> text(long number) {
        return Optional.ofNullable(texts.get(number));
    }

    public Optional<Severity> severity(long number) {
        return Optional.ofNullable(severities.get(number));
    }
}
