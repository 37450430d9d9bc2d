package burnerbridge.bacnet.door;

import burnerbridge.bacnet.edge.coding.Octets;
import burnerbridge.bacnet.edge.coding.Tag;
import burnerbridge.bacnet.edge.coding.Trouble;
import burnerbridge.site.ObjectKind;
import burnerbridge.site.StateNumbers;
import burnerbridge.write.ask.Wanted;
import com.serotonin.bacnet4j.type.Encodable;
import com.serotonin.bacnet4j.type.enumerated.BinaryPV;
import com.serotonin.bacnet4j.type.primitive.Real;
import com.serotonin.bacnet4j.type.primitive.UnsignedInteger;
import java.math.BigDecimal;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;

/**
 * Between the present value of a commandable object and what the gate is asked for: a REAL of an Analog Value (ASHRAE 135,
 * 12.4), an enumeration of a Binary Value (12.8), an Unsigned of a Multi-state Value (12.20).
 */
sealed interface Coding {
    int NULL = 0;
    int UNSIGNED = 2;
    int REAL = 4;
    int ENUMERATED = 9;
    List<String> TYPES = List.of(
            "Null",
            "Boolean",
            "Unsigned",
            "Integer",
            "Real",
            "Double",
            "OctetString",
            "CharacterString",
            "BitString",
            "Enumerated",
            "Date",
            "Time",
            "BACnetObjectIdentifier");

    /**
     * What was meant.
     *
     * @param otherwise the trouble where it is no number that could be asked for
     */
    record Meant(Wanted wanted, Trouble otherwise) {}

    /** The application type of its values. */
    int type();

    /** What an application value of its type means. */
    Meant meant(Octets content);

    /** A value as the gate has it, as the object shows it; empty where it has no way to. */
    Optional<Encodable> shown(BigDecimal value);

    /** What the object shows where it has no way to show a value; its reliability says so. */
    Encodable meaningless();

    static Coding of(ObjectKind kind, StateNumbers states) {
        return switch (kind) {
            case ANALOG_VALUE -> new Analog();
            case BINARY_VALUE -> new Binary();
            case MULTI_STATE_VALUE -> new MultiState(states);
            default -> throw new IllegalArgumentException("nothing is asked for by " + kind.word());
        };
    }

    /** Null gives a slot up; what is neither that nor of its type is no value. */
    default Meant meant(List<Tag> value) {
        Tag first = value.get(0);
        if (value.size() > 1 || first.context() || first.kind() != Tag.Kind.PRIMITIVE) {
            return noValue("something constructed");
        }
        if (first.number() == NULL) {
            return new Meant(new Wanted.Nothing(), Trouble.INVALID_DATA_TYPE);
        }
        if (first.number() != type()) {
            return noValue("of type "
                    + (first.number() < TYPES.size() ? TYPES.get(first.number()) : Integer.toString(first.number())));
        }
        return meant(first.content());
    }

    private static Meant noValue(String what) {
        return new Meant(new Wanted.NoNumber(what), Trouble.INVALID_DATA_TYPE);
    }

    private static Meant number(BigDecimal number) {
        return new Meant(new Wanted.Number(number), Trouble.INVALID_DATA_TYPE);
    }

    private static Meant outside(String what) {
        return new Meant(new Wanted.NoNumber(what), Trouble.VALUE_OUT_OF_RANGE);
    }

    /** A number. A REAL means the shortest decimal that it stands for: 20.1, and not 20.1000003815. */
    record Analog() implements Coding {
        @Override
        public int type() {
            return REAL;
        }

        @Override
        public Meant meant(Octets content) {
            float real = Float.intBitsToFloat((int) content.number());
            return Float.isFinite(real) ? number(new BigDecimal(Float.toString(real))) : noValue(Float.toString(real));
        }

        @Override
        public Optional<Encodable> shown(BigDecimal value) {
            return Optional.of(value.floatValue()).filter(Float::isFinite).map(Real::new);
        }

        @Override
        public Encodable meaningless() {
            return new Real(0);
        }
    }

    /** A bit: inactive 0, active 1. */
    record Binary() implements Coding {
        @Override
        public int type() {
            return ENUMERATED;
        }

        @Override
        public Meant meant(Octets content) {
            long number = content.number();
            return number <= 1 ? number(BigDecimal.valueOf(number)) : outside("enumeration " + number);
        }

        @Override
        public Optional<Encodable> shown(BigDecimal value) {
            return Optional.of(value.signum() == 0 ? BinaryPV.inactive : BinaryPV.active);
        }

        @Override
        public Encodable meaningless() {
            return BinaryPV.inactive;
        }
    }

    /** A state, by the numbers of the object that shows the point. */
    record MultiState(StateNumbers states) implements Coding {
        @Override
        public int type() {
            return UNSIGNED;
        }

        @Override
        public Meant meant(Octets content) {
            long asked = content.length() > 4 ? Long.MAX_VALUE : content.number();
            return states.byState().entrySet().stream()
                    .filter(entry -> entry.getValue() == asked)
                    .map(Map.Entry::getKey)
                    .findFirst()
                    .map(state -> number(BigDecimal.valueOf(state)))
                    .orElseGet(() -> outside("state " + (content.length() > 4 ? "of many octets" : asked)));
        }

        @Override
        public Optional<Encodable> shown(BigDecimal value) {
            OptionalInt number = states.of(value.longValue());
            return number.isPresent() ? Optional.of(new UnsignedInteger(number.getAsInt())) : Optional.empty();
        }

        @Override
        public Encodable meaningless() {
            return new UnsignedInteger(1);
        }
    }
}
