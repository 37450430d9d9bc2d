package burnerbridge.mqtt.topic;

import burnerbridge.model.BitValue;
import burnerbridge.model.DateTimeValue;
import burnerbridge.model.IntegerValue;
import burnerbridge.model.RealValue;
import burnerbridge.model.StateValue;
import burnerbridge.model.TextValue;
import burnerbridge.model.Value;
import burnerbridge.site.States;
import java.math.BigInteger;
import java.time.format.DateTimeFormatter;
import org.jspecify.annotations.Nullable;
import tools.jackson.core.JsonGenerator;

/**
 * A value in JSON. A whole number beyond 2^53 is a string, because most readers put numbers into a
 * double (RFC 8259, 6); a real number has the decimals worth showing and never an exponent; a state is
 * {@code {"number":3,"text":"purge"}}, its text null where the point list has none, with its {@code severity}
 * where it is a fault cause that has one. A bit is true or
 * false, but where the point list names its states it is such an object too, numbered 0 and 1: whoever
 * gave it names wants to read them. A date and time of the controller's own clock has no zone.
 */
final class ValueForm {
    private static final BigInteger EXACT_IN_A_DOUBLE = BigInteger.ONE.shiftLeft(53);

    private ValueForm() {}

    /** Writes a value, or null for none, at the generator's place. */
    static void write(JsonGenerator json, @Nullable Value value, States states) {
        if (value == null) {
            json.writeNull();
        } else if (value instanceof IntegerValue integer) {
            whole(json, integer.number());
        } else if (value instanceof RealValue real) {
            json.writeNumber(real.text());
        } else if (value instanceof StateValue state) {
            state(json, state.number(), state.label(), states);
        } else if (value instanceof BitValue bit) {
            bit(json, bit, states);
        } else if (value instanceof TextValue text) {
            json.writeString(text.characters());
        } else {
            json.writeString(DateTimeFormatter.ISO_LOCAL_DATE_TIME.format(((DateTimeValue) value).dateTime()));
        }
    }

    private static void whole(JsonGenerator json, BigInteger number) {
        if (number.abs().compareTo(EXACT_IN_A_DOUBLE) > 0) {
            json.writeString(number.toString());
        } else {
            json.writeNumber(number.toString());
        }
    }

    private static void bit(JsonGenerator json, BitValue bit, States states) {
        if (states.isEmpty()) {
            json.writeBoolean(bit.on());
        } else {
            long number = bit.on() ? 1 : 0;
            state(json, number, states.text(number).orElse(null), states);
        }
    }

    private static void state(JsonGenerator json, long number, @Nullable String text, States states) {
        json.writeStartObject();
        json.writeName("number");
        whole(json, BigInteger.valueOf(number));
        json.writeName("text");
        if (text == null) {
            json.writeNull();
        } else {
            json.writeString(text);
        }
        states.severity(number).ifPresent(severity -> json.writeStringProperty("severity", severity.word()));
        json.writeEndObject();
    }
}
