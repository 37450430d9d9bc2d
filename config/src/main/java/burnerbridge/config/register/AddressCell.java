package burnerbridge.config.register;

import burnerbridge.config.row.PointRow;
import burnerbridge.config.type.TypeSettings;
import burnerbridge.site.PointFormat;
import burnerbridge.site.RegisterTable;
import java.util.Optional;
import java.util.OptionalInt;

/**
 * The {@code address} column: one address, or two as {@code 120+187} for a value whose words are apart.
 *
 * @param wire the address as it travels; of the more significant word where there are two
 * @param lowerWord the other one
 */
public record AddressCell(int wire, OptionalInt lowerWord) {
    private static final int END = 65536;

    /** Empty where the cell is wrong; then it is told. */
    public static Optional<AddressCell> read(
            PointRow row, RegisterTable table, Optional<PointFormat> format, TypeSettings type) {
        String written = row.required("address");
        if (written.isEmpty()) {
            return Optional.empty();
        }
        int plus = written.indexOf('+');
        OptionalInt first = wire(row, table, plus < 0 ? written : written.substring(0, plus), type);
        if (first.isEmpty()) {
            return Optional.empty();
        }
        return plus < 0
                ? one(row, format, first.getAsInt(), written)
                : two(row, format, first.getAsInt(), wire(row, table, written.substring(plus + 1), type));
    }

    /** Empty where the numbering has no such address; then it is told. */
    public static OptionalInt wire(PointRow row, RegisterTable table, String written, TypeSettings type) {
        OptionalInt wire = type.numbering().wireAddress(table, written.strip());
        if (wire.isEmpty()) {
            row.error("address", type.numbering().objection(table, type.name(), written));
        }
        return wire;
    }

    private static Optional<AddressCell> one(PointRow row, Optional<PointFormat> format, int wire, String written) {
        if (format.isPresent() && wire + format.get().width() > END) {
            row.error("address", pastTheEnd(format.get().word(), written, wire));
            return Optional.empty();
        }
        return Optional.of(new AddressCell(wire, OptionalInt.empty()));
    }

    public static String pastTheEnd(String format, String written, int wire) {
        return "a " + format + " at " + written + " (wire " + wire + ") runs past the end of its table (wire 65535)";
    }

    private static Optional<AddressCell> two(PointRow row, Optional<PointFormat> format, int high, OptionalInt low) {
        if (format.isEmpty() || low.isEmpty()) {
            return Optional.empty();
        }
        boolean twoWords = format.get().width() == 2 && !(format.get() instanceof PointFormat.Text);
        if (!twoWords) {
            row.error(
                    "address",
                    "two addresses are for a value of two registers, and a "
                            + format.get().word() + " is none");
            return Optional.empty();
        }
        if (row.text("order").startsWith("low-word-first")) {
            row.error("order", "where the words are apart, the address names the high word first");
            return Optional.empty();
        }
        return Optional.of(new AddressCell(high, low));
    }
}
