package burnerbridge.site;

import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;

/** The states of a point: numbers as the controller sends them, and their texts, in the list's order. */
public record States(Map<Long, String> texts) {
    public static final States NONE = new States(Map.of());

    public States {
        texts = Collections.unmodifiableMap(new LinkedHashMap<>(texts));
    }

    public boolean isEmpty() {
        return texts.isEmpty();
    }

    public Optional<String> text(long number) {
        return Optional.ofNullable(texts.get(number));
    }
}
