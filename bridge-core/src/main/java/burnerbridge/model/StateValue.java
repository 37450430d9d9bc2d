package burnerbridge.model;

import org.jspecify.annotations.Nullable;

/**
 * A state: the number the controller sent and its text in the point list.
 *
 * @param number as decoded from the registers
 * @param label the text, or null where the list has none for this number
 */
public record StateValue(long number, @Nullable String label) implements Value {

    @Override
    public String text() {
        return label == null ? Long.toString(number) : label;
    }
}
