package burnerbridge.site;

import java.util.Locale;

/** What a point becomes on the BACnet side. */
public enum ObjectKind {
    ANALOG_INPUT,
    BINARY_INPUT,
    MULTI_STATE_INPUT,
    /** The point stays off BACnet. */
    NONE;

    /** The word used in the point list and in the bindings: {@code analog-input}. */
    public String word() {
        return name().toLowerCase(Locale.ROOT).replace('_', '-');
    }
}
