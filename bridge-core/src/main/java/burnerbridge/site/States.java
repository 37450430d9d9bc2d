package burnerbridge.site;

import java.util.ArrayList;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;

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

    /** The multi-state number of a state, from 1 in the list's order; empty for a state without text. */
    public OptionalInt multiStateNumber(long number) {
        int position = new ArrayList<>(texts.keySet()).indexOf(number);
        return position < 0 ? OptionalInt.empty() : OptionalInt.of(position + 1);
    }

    /** The texts in the order of their multi-state numbers. */
    public List<String> textsInOrder() {
        return List.copyOf(texts.values());
    }
}
