package burnerbridge.config;

import burnerbridge.site.ObjectKind;
import burnerbridge.site.PointFormat;
import burnerbridge.site.Role;
import burnerbridge.site.States;
import java.util.List;
import java.util.Optional;

/** Decides what a point becomes on the BACnet side, from its row. */
final class ObjectCell {
    private static final List<String> WORDS = List.of(
            ObjectKind.ANALOG_INPUT.word(),
            ObjectKind.BINARY_INPUT.word(),
            ObjectKind.MULTI_STATE_INPUT.word(),
            ObjectKind.NONE.word());

    private ObjectCell() {}

    static Optional<ObjectKind> read(PointRow row, PointFormat format, States states, Role role) {
        ObjectKind natural = natural(format, states);
        Optional<String> written = row.word("object", WORDS);
        if (row.has("object") && written.isEmpty()) {
            return Optional.empty();
        }
        if (written.isEmpty()) {
            return Optional.of(isOffByRole(role) ? ObjectKind.NONE : natural);
        }
        if (written.get().equals(ObjectKind.NONE.word())) {
            return Optional.of(ObjectKind.NONE);
        }
        if (!written.get().equals(natural.word())) {
            row.error(
                    "object",
                    "a " + format.word() + (states.isEmpty() ? "" : " with states") + " becomes a " + natural.word()
                            + ", or none (was '" + written.get() + "')");
            return Optional.empty();
        }
        if (role.defaultEvery().isEmpty()) {
            row.error("object", "a point of role " + role.word() + " is not polled, so it can only be none");
            return Optional.empty();
        }
        return Optional.of(natural);
    }

    private static boolean isOffByRole(Role role) {
        return role == Role.CURVE
                || role == Role.FAULT_RECORD
                || role.defaultEvery().isEmpty();
    }

    private static ObjectKind natural(PointFormat format, States states) {
        if (PointRowReader.isBit(format)) {
            return ObjectKind.BINARY_INPUT;
        }
        return states.isEmpty() ? ObjectKind.ANALOG_INPUT : ObjectKind.MULTI_STATE_INPUT;
    }
}
