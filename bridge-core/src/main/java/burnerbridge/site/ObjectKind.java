package burnerbridge.site;

import java.util.Locale;

/** What a point becomes on the BACnet side. */
public enum ObjectKind {
    ANALOG_INPUT,
    BINARY_INPUT,
    MULTI_STATE_INPUT,
    /** A number that is set at the controller. It has no priority array: nobody commands it from here. */
    ANALOG_VALUE,
    BINARY_VALUE,
    MULTI_STATE_VALUE,
    /** A whole number with sign that a REAL would round. */
    INTEGER_VALUE,
    /** A whole number without sign that a REAL would round, or a code. */
    POSITIVE_INTEGER_VALUE,
    /** A number with decimals that a REAL would round. */
    LARGE_ANALOG_VALUE,
    /** A total that counts on. */
    ACCUMULATOR,
    CHARACTERSTRING_VALUE,
    DATETIME_VALUE,
    /** The point stays off BACnet. */
    NONE;

    /** The word used in the point list and in the bindings: {@code analog-input}. */
    public String word() {
        return name().toLowerCase(Locale.ROOT).replace('_', '-');
    }

    /** Whether its present value is one of numbered states. */
    public boolean isMultiState() {
        return this == MULTI_STATE_INPUT || this == MULTI_STATE_VALUE;
    }

    /** Whether clients of the standard's first edition know it. */
    public boolean isBasic() {
        return compareTo(MULTI_STATE_VALUE) <= 0 || this == NONE;
    }
}
