package burnerbridge.values;

import burnerbridge.model.BitValue;
import burnerbridge.model.DateTimeValue;
import burnerbridge.model.IntegerValue;
import burnerbridge.model.RealValue;
import burnerbridge.model.StateValue;
import burnerbridge.model.Value;
import burnerbridge.site.States;
import java.math.BigDecimal;
import java.math.BigInteger;
import java.time.format.DateTimeFormatter;
import java.util.LinkedHashMap;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/**
 * A value as JSON has it, on the topics as on the control socket: a whole number beyond 2^53 is a string,
 * because most readers put numbers into a double (RFC 8259, 6); a real number has the decimals worth
 * showing and never an exponent; a state is {@code {"number":3,"text":"purge"}}, its text null where the
 * point list has none, and with a {@code severity} where it is a fault cause that has one. A bit is true or false, but where the point list names its states it is such an
 * object too, numbered 0 and 1: whoever gave it names wants to read them. A date and time of the
 * controller's own clock has no zone.
 */
public final class ValueForm {
    private static final BigInteger EXACT_IN_A_DOUBLE = BigInteger.ONE.shiftLeft(53);

    private ValueForm() {}

    /** Made of strings, numbers, booleans, nulls and maps, as {@link burnerbridge.control.JsonLine} writes them. */
    public static Object json(Value value, States states) {
        if (value instanceof IntegerValue integer) {
            return whole(integer.number());
        }
        if (value instanceof RealValue real) {
            return new BigDecimal(real.text());
        }
        if (value instanceof StateValue state) {
            return state(state.number(), state.label(), states);
        }
        if (value instanceof BitValue bit) {
            return states.isEmpty()
                    ? (Object) bit.on()
                    : state(number(bit), states.text(number(bit)).orElse(null), states);
        }
        if (value instanceof DateTimeValue moment) {
            return DateTimeFormatter.ISO_LOCAL_DATE_TIME.format(moment.dateTime());
        }
        return value.text();
    }

    private static Object whole(BigInteger number) {
        return number.abs().compareTo(EXACT_IN_A_DOUBLE) > 0 ? number.toString() : new BigDecimal(number);
    }

    private static Map<String, @Nullable Object> state(long number, @Nullable String text, States states) {
        Map<String, @Nullable Object> state = new LinkedHashMap<>();
        state.put("number", whole(BigInteger.valueOf(number)));
        state.put("text", text);
        states.severity(number).ifPresent(severity -> state.put("severity", severity.word()));
        return state;
    }

    private static long number(BitValue bit) {
        return bit.on() ? 1 : 0;
    }

    /** As people read it. */
    static String text(Value value, States states) {
        return value instanceof BitValue bit && !states.isEmpty()
                ? states.text(number(bit)).orElse(value.text())
                : value.text();
    }
}
