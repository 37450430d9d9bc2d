package burnerbridge.config;

import burnerbridge.site.ObjectKind;
import burnerbridge.site.PointDefinition;
import burnerbridge.site.PointFormat;
import burnerbridge.site.Role;
import burnerbridge.site.Site;
import burnerbridge.site.SitePoint;
import burnerbridge.site.States;
import java.util.List;
import java.util.Optional;

/** Decides what a point becomes on the BACnet side, from its row. */
final class ObjectCell {
    /** The bits of a whole number that an IEEE 754 binary32, BACnet's REAL, holds exactly. */
    private static final int EXACT_BITS = 24;

    private static final List<String> WORDS = List.of(
            ObjectKind.ANALOG_INPUT.word(),
            ObjectKind.BINARY_INPUT.word(),
            ObjectKind.MULTI_STATE_INPUT.word(),
            ObjectKind.NONE.word());

    private ObjectCell() {}

    /** @param isRead whether the point is read at all */
    static Optional<ObjectKind> read(PointRow row, PointFormat format, States states, Role role, boolean isRead) {
        ObjectKind possible = possible(format, states);
        Optional<String> written = row.word("object", WORDS);
        if (row.has("object") && written.isEmpty()) {
            return Optional.empty();
        }
        if (written.isEmpty()) {
            boolean off =
                    !isRead || isOffByRole(role) || (possible == ObjectKind.ANALOG_INPUT && !isExactAsReal(format));
            return Optional.of(off ? ObjectKind.NONE : possible);
        }
        if (written.get().equals(ObjectKind.NONE.word())) {
            return Optional.of(ObjectKind.NONE);
        }
        return checked(row, format, states, possible, isRead, written.get());
    }

    private static Optional<ObjectKind> checked(
            PointRow row, PointFormat format, States states, ObjectKind possible, boolean isRead, String written) {
        if (!written.equals(possible.word())) {
            String what = format.word() + (states.isEmpty() ? "" : " with states");
            row.error(
                    "object",
                    (possible == ObjectKind.NONE
                                    ? "a " + what + " can only be none in this version"
                                    : "a " + what + " becomes " + article(possible) + ", or none")
                            + " (was '" + written + "')");
            return Optional.empty();
        }
        if (!isRead) {
            row.error("object", "a point that is not read can only be none");
            return Optional.empty();
        }
        if (possible == ObjectKind.ANALOG_INPUT && !isExactAsReal(format)) {
            row.warning(
                    "object",
                    "an analog-input shows a " + format.word() + " as a REAL, which is exact for whole numbers up to "
                            + (1 << EXACT_BITS) + " only; MQTT has every digit");
        }
        return Optional.of(possible);
    }

    /** Why a point has no object; empty where it has one. */
    static Optional<String> whyNone(Site site, SitePoint point) {
        PointDefinition definition = point.definition();
        if (definition.wantsObject()) {
            return site.bacnet().isEmpty()
                    ? Optional.of("BACnet is off")
                    : Optional.of("it has no binding")
                            .filter(w -> site.bindings().instanceOf(point).isEmpty());
        }
        ObjectKind possible = possible(definition.format(), definition.states());
        if (!definition.hasReadings()) {
            return Optional.of("it is never read");
        }
        if (possible == ObjectKind.NONE) {
            return Optional.of(
                    "this version has no object for " + definition.format().word());
        }
        if (isOffByRole(definition.role())) {
            return Optional.of("points of role " + definition.role().word() + " stay off");
        }
        return Optional.of(
                possible == ObjectKind.ANALOG_INPUT && !isExactAsReal(definition.format())
                        ? "a REAL would round it past " + (1 << EXACT_BITS)
                        : "its row says none");
    }

    static String article(ObjectKind kind) {
        return (kind == ObjectKind.ANALOG_INPUT ? "an " : "a ") + kind.word();
    }

    private static boolean isOffByRole(Role role) {
        return role == Role.CURVE || role == Role.FAULT_RECORD;
    }

    private static boolean isExactAsReal(PointFormat format) {
        return format instanceof PointFormat.Floating floating
                ? floating.bits() == 32
                : format.magnitudeBits() <= EXACT_BITS;
    }

    private static ObjectKind possible(PointFormat format, States states) {
        if (PointRowReader.isBit(format)) {
            return ObjectKind.BINARY_INPUT;
        }
        if (!states.isEmpty()) {
            return ObjectKind.MULTI_STATE_INPUT;
        }
        boolean number = format.isWhole() || format instanceof PointFormat.Floating;
        return number ? ObjectKind.ANALOG_INPUT : ObjectKind.NONE;
    }
}
