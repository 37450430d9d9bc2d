package burnerbridge.config.point;

import burnerbridge.config.register.AddressCell;
import burnerbridge.config.row.PointRow;
import burnerbridge.config.type.TypeSettings;
import burnerbridge.site.AddressRange;
import burnerbridge.site.RegisterTable;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.Set;

/**
 * A row of a point list that is no point: addresses that no read may touch.
 *
 * @param line of the file, for messages
 */
record ReservedRow(AddressRange range, int line) {
    private static final String WORD = "reserved";
    private static final int MOST = 65536;
    /** What may be filled in such a row; a name or a role is for its reader. */
    private static final Set<String> COLUMNS =
            Set.of("name", "description", "table", "address", "format", "role", "source");

    static boolean isOne(PointRow row) {
        return row.text("format").equals(WORD) || row.text("format").startsWith(WORD + ":");
    }

    /** Empty where the row is wrong; then its problems are told. */
    static Optional<ReservedRow> read(PointRow row, TypeSettings type) {
        PointListReader.COLUMNS.stream()
                .filter(column -> !COLUMNS.contains(column) && row.has(column))
                .forEach(column -> row.error(column, "means nothing for '" + WORD + "'"));
        row.word("role", PointRowReader.ROLES);
        Optional<RegisterTable> table = PointRowReader.table(row);
        OptionalInt count = count(row);
        String written = row.required("address");
        OptionalInt first = table.isEmpty() || written.isEmpty()
                ? OptionalInt.empty()
                : AddressCell.wire(row, table.get(), written, type);
        if (first.isEmpty() || count.isEmpty()) {
            return Optional.empty();
        }
        if (first.getAsInt() + count.getAsInt() > MOST) {
            row.error("address", AddressCell.pastTheEnd(row.text("format"), written, first.getAsInt()));
            return Optional.empty();
        }
        return Optional.of(new ReservedRow(
                AddressRange.of(table.orElseThrow(), first.getAsInt(), count.getAsInt()),
                row.place("format").line()));
    }

    private static OptionalInt count(PointRow row) {
        String argument =
                row.text("format").equals(WORD) ? "1" : row.text("format").substring(WORD.length() + 1);
        int count = argument.matches("\\d{1,5}") ? Integer.parseInt(argument) : 0;
        if (count < 1 || count > MOST) {
            row.error("format", "takes 1 to " + MOST + " addresses (was '" + row.text("format") + "')");
            return OptionalInt.empty();
        }
        return OptionalInt.of(count);
    }
}
