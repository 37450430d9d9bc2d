package burnerbridge.mqtt.payload;

import burnerbridge.site.PointDefinition;
import burnerbridge.site.PointFormat;
import java.util.Locale;

/** What the {@code value} of a point's messages is, where it is not null. */
public enum ValueKind {
    /** A number, with the decimals worth showing. */
    NUMBER,
    /** A whole number, which is a string beyond 2^53. */
    WHOLE,
    /** {@code {"number":3,"text":"purge"}}. */
    STATE,
    /** True or false. */
    BIT,
    TEXT,
    /** ISO 8601 without a zone: the controller's own clock. */
    DATE_TIME;

    /** The word used in the description: {@code date-time}. */
    public String word() {
        return name().toLowerCase(Locale.ROOT).replace('_', '-');
    }

    public static ValueKind of(PointDefinition point) {
        PointFormat format = point.format();
        if (format instanceof PointFormat.Text) {
            return TEXT;
        }
        if (format instanceof PointFormat.Epoch32 || format instanceof PointFormat.Calendar) {
            return DATE_TIME;
        }
        boolean bit = format instanceof PointFormat.Bit || format instanceof PointFormat.RegisterBit;
        if (!point.states().isEmpty()) {
            return STATE;
        }
        if (bit) {
            return BIT;
        }
        boolean scaled =
                !point.scaling().isNone() || point.consistency().scaleBy().isPresent();
        return scaled || format instanceof PointFormat.Floating ? NUMBER : WHOLE;
    }
}
