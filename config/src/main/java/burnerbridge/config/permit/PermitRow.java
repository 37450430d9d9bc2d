package burnerbridge.config.permit;

import burnerbridge.config.point.PointOrigin;
import burnerbridge.site.ControllerDefinition;
import burnerbridge.site.PointDefinition;
import burnerbridge.site.PointFormat;
import burnerbridge.site.PointId;
import burnerbridge.site.RegisterTable;
import burnerbridge.site.Role;
import burnerbridge.site.TypeOptions;

/** The row that a permit is about, as one controller has it. */
record PermitRow(ControllerDefinition controller, PointDefinition point, PointOrigin origin) {

    PointId id() {
        return new PointId(controller.name(), point.name());
    }

    Role role() {
        return point.role();
    }

    TypeOptions options() {
        return controller.type().options();
    }

    /** For messages: {@code load-limit of boiler-1 at holding-register 45 (wire 44)}. */
    String text() {
        return point.name() + " of " + controller.name() + " at " + point.addressText();
    }

    /** For messages: what it holds, {@code a bit (format 'bit:3')}. */
    String kind() {
        String kind = point.format().isBit() ? "a bit" : point.states().isEmpty() ? "a number" : "a point with states";
        return kind + " (format '" + point.format().word() + "')";
    }

    /** Whether what may be written is told by states rather than by a range. */
    boolean hasStates() {
        return point.format().isBit() || !point.states().isEmpty();
    }

    boolean isWritableTable() {
        return isWritableTable(point);
    }

    static boolean isWritableTable(PointDefinition point) {
        return point.table() == RegisterTable.COIL || point.table() == RegisterTable.HOLDING_REGISTER;
    }

    /** Whether its value is some bits of a register, whose others a write must leave alone. */
    boolean isPartOfRegister() {
        return point.format() instanceof PointFormat.RegisterBit
                || point.format() instanceof PointFormat.BitField
                || point.format() instanceof PointFormat.HalfRegister;
    }

    /** Whether a value of its format can be turned into registers: numbers, bits and states; not text and time. */
    boolean isEncodable() {
        return point.format().isBit()
                || point.format() instanceof PointFormat.Floating
                || (point.format().isWhole() && !point.isDerived());
    }
}
