package burnerbridge.model;

import java.util.Optional;
import org.jspecify.annotations.Nullable;

/**
 * A state: the number the controller sent and its text in the point list.
 *
 * @param number as decoded from the registers
 * @param label the text, or null where the list has none for this number
 */
public record StateValue(long number, @Nullable String label) implements Value {

    public Optional<String> knownLabel() {
        return Optional.ofNullable(label);
    }

    @Override
    public String text() {
        return label == null ? Long.toString(number) : label;
    }
}
