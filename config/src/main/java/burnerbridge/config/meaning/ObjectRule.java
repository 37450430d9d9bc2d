package burnerbridge.config.meaning;

import burnerbridge.site.ObjectKind;
import burnerbridge.site.PointFormat;
import burnerbridge.site.Role;
import burnerbridge.site.Scaling;
import burnerbridge.site.States;
import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/**
 * Which kinds of object a point can have by its format and role, the usual one first. A REAL is exact for whole
 * numbers of 24 bits, so that longer ones have a kind that holds every digit.
 *
 * @param basic whether the site wants only kinds that the oldest clients know
 */
public record ObjectRule(
        PointFormat format, States states, Role role, Scaling scaling, boolean scaledBy, boolean basic) {
    /** The bits of a whole number that an IEEE 754 binary32, BACnet's REAL, holds exactly. */
    static final int BITS_OF_REAL = 24;

    private static final int BITS_OF_DOUBLE = 53;
    /** What clients can be trusted to read of an INTEGER or Unsigned. */
    private static final int BITS_OF_INTEGER = 32;

    /** What the point has where its row says nothing; empty where nothing holds it. */
    Optional<ObjectKind> usual() {
        return possible().stream().filter(kind -> !rounds(kind)).findFirst();
    }

    List<ObjectKind> possible() {
        return all().stream().filter(kind -> !basic || kind.isBasic()).toList();
    }

    private List<ObjectKind> all() {
        if (format.isBit()) {
            return List.of(ObjectKind.BINARY_INPUT, ObjectKind.BINARY_VALUE);
        }
        if (!states.isEmpty()) {
            return List.of(ObjectKind.MULTI_STATE_INPUT, ObjectKind.MULTI_STATE_VALUE);
        }
        if (format instanceof PointFormat.Text) {
            return List.of(ObjectKind.CHARACTERSTRING_VALUE);
        }
        return format.isWhole() || format instanceof PointFormat.Floating
                ? ofNumber()
                : List.of(ObjectKind.DATETIME_VALUE);
    }

    private List<ObjectKind> ofNumber() {
        List<ObjectKind> kinds = new ArrayList<>();
        if (role == Role.IDENTITY && isInteger()) {
            kinds.add(integer());
        }
        boolean set = role == Role.SETTING || role == Role.SAFETY_SETTING;
        kinds.add(set ? ObjectKind.ANALOG_VALUE : ObjectKind.ANALOG_INPUT);
        kinds.add(set ? ObjectKind.ANALOG_INPUT : ObjectKind.ANALOG_VALUE);
        if (isTotal() && role == Role.COUNTER) {
            kinds.add(ObjectKind.ACCUMULATOR);
        }
        if (isInteger() && !kinds.contains(integer())) {
            kinds.add(integer());
        }
        if (format.magnitudeBits() <= BITS_OF_DOUBLE) {
            kinds.add(ObjectKind.LARGE_ANALOG_VALUE);
        }
        if (isTotal() && role != Role.COUNTER) {
            kinds.add(ObjectKind.ACCUMULATOR);
        }
        if (format.isWhole()) {
            kinds.add(ObjectKind.CHARACTERSTRING_VALUE);
        }
        return kinds;
    }

    /** Whether a kind cannot hold every digit. */
    boolean rounds(ObjectKind kind) {
        boolean real = kind == ObjectKind.ANALOG_INPUT || kind == ObjectKind.ANALOG_VALUE;
        boolean exact = format instanceof PointFormat.Floating floating
                ? floating.bits() == Float.SIZE
                : format.magnitudeBits() <= BITS_OF_REAL;
        return real && !exact;
    }

    private ObjectKind integer() {
        return isSigned() ? ObjectKind.INTEGER_VALUE : ObjectKind.POSITIVE_INTEGER_VALUE;
    }

    private boolean isSigned() {
        return format instanceof PointFormat.Whole whole
                ? whole.signed()
                : format instanceof PointFormat.HalfRegister half
                        ? half.signed()
                        : format instanceof PointFormat.SignMagnitude16;
    }

    private boolean isInteger() {
        return format.isWhole() && fits() && !scaledBy && scaling.line().isIdentity();
    }

    private boolean fits() {
        return format.magnitudeBits() <= (isSigned() ? BITS_OF_INTEGER - 1 : BITS_OF_INTEGER);
    }

    /** A count that begins at nothing and says by a factor what one of it is. */
    private boolean isTotal() {
        BigDecimal one = scaling.line().applyToDifference(BigDecimal.ONE);
        return format.isWhole()
                && !isSigned()
                && fits()
                && !scaledBy
                && one.signum() > 0
                && scaling.line().addend().signum() == 0;
    }
}
