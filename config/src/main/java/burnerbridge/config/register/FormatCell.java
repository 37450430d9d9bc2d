package burnerbridge.config.register;

import burnerbridge.config.problem.NearestWord;
import burnerbridge.config.row.PointRow;
import burnerbridge.config.type.Orders;
import burnerbridge.config.type.TypeSettings;
import burnerbridge.site.PointFormat;
import burnerbridge.site.RegisterTable;
import burnerbridge.site.WordOrder;
import java.time.ZoneId;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import org.jspecify.annotations.Nullable;

/** Reads the {@code format} and {@code order} columns. */
public final class FormatCell {
    public static final List<String> KNOWN = List.of(
            "uint16",
            "int16",
            "uint32",
            "int32",
            "uint64",
            "int64",
            "float32",
            "float64",
            "int8-high",
            "int8-low",
            "uint8-high",
            "uint8-low",
            "sign-magnitude16",
            "bcd16",
            "bcd32",
            "decimal-words:N",
            "bit",
            "bit:N",
            "bits:LOW-HIGH",
            "text:N",
            "datetime:FIELDS",
            "epoch32",
            "reserved",
            "reserved:N");

    private final PointRow row;
    private final String text;
    private final WordOrder order;
    private final TypeSettings type;
    private final ZoneId zone;

    private FormatCell(PointRow row, WordOrder order, TypeSettings type, ZoneId zone) {
        this.row = row;
        this.text = row.text("format");
        this.order = order;
        this.type = type;
        this.zone = zone;
    }

    public static Optional<PointFormat> read(PointRow row, RegisterTable table, TypeSettings type, ZoneId zone) {
        row.required("format");
        Optional<WordOrder> order = row.word("order", Orders.BY_WORD.keySet()).map(Orders.BY_WORD::get);
        if (!row.has("format")) {
            return Optional.empty();
        }
        FormatCell cell = new FormatCell(row, effective(row, order.orElse(type.order())), type, zone);
        Optional<PointFormat> format = cell.parse();
        if (format.isPresent() && table.ofBits() != (format.get() instanceof PointFormat.Bit)) {
            row.error(
                    "format",
                    table.ofBits()
                            ? "a " + table.word() + " takes only 'bit' (was '" + cell.text + "')"
                            : "'bit' is for coils and discrete inputs; a bit of a register is 'bit:N'");
            return Optional.empty();
        }
        if (order.isPresent() && format.isPresent() && !format.get().hasOrder()) {
            row.error("order", "means nothing for '" + cell.text + "'");
        }
        return format;
    }

    /** Where the words are apart the address says which comes first; only the bytes may still be swapped. */
    private static WordOrder effective(PointRow row, WordOrder order) {
        return row.text("address").indexOf('+') < 0 ? order : new WordOrder(false, order.swapBytes());
    }

    private Optional<PointFormat> parse() {
        PointFormat plain = plain();
        if (plain != null) {
            return Optional.of(plain);
        }
        int colon = text.indexOf(':');
        String argument = text.substring(colon + 1);
        return switch (colon < 0 ? "" : text.substring(0, colon)) {
            case "bit" -> registerBit(argument);
            case "bits" -> bitField(argument);
            case "text" -> counted(argument, 1, PointFormat.Text.MOST).map(count -> new PointFormat.Text(count, order));
            case "decimal-words" ->
                counted(argument, 2, PointFormat.DecimalWords.MOST)
                        .map(count -> new PointFormat.DecimalWords(count, order));
            case "datetime" -> CalendarCell.read(row, text, argument);
            default -> unknown();
        };
    }

    private @Nullable PointFormat plain() {
        return switch (text) {
            case "bit" -> new PointFormat.Bit();
            case "uint16" -> PointFormat.UINT16;
            case "int16" -> PointFormat.INT16;
            case "uint32" -> new PointFormat.Whole(32, false, order);
            case "int32" -> new PointFormat.Whole(32, true, order);
            case "uint64" -> new PointFormat.Whole(64, false, order);
            case "int64" -> new PointFormat.Whole(64, true, order);
            case "float32" -> new PointFormat.Floating(32, order);
            case "float64" -> new PointFormat.Floating(64, order);
            case "int8-high" -> new PointFormat.HalfRegister(true, true);
            case "int8-low" -> new PointFormat.HalfRegister(false, true);
            case "uint8-high" -> new PointFormat.HalfRegister(true, false);
            case "uint8-low" -> new PointFormat.HalfRegister(false, false);
            case "sign-magnitude16" -> new PointFormat.SignMagnitude16();
            case "bcd16" -> new PointFormat.Bcd(1, WordOrder.HIGH_WORD_FIRST);
            case "bcd32" -> new PointFormat.Bcd(2, order);
            case "epoch32" -> new PointFormat.Epoch32(order, zone);
            default -> null;
        };
    }

    private Optional<Integer> counted(String argument, int least, int most) {
        if (argument.matches("\\d{1,3}")) {
            int count = Integer.parseInt(argument);
            if (count >= least && count <= most) {
                return Optional.of(count);
            }
        }
        row.error("format", "takes " + least + " to " + most + " registers (was '" + text + "')");
        return Optional.empty();
    }

    private Optional<PointFormat> registerBit(String argument) {
        OptionalInt index = bitIndex(argument);
        return index.isEmpty()
                ? Optional.empty()
                : Optional.of(new PointFormat.RegisterBit(index.getAsInt(), index.getAsInt() + type.firstBit()));
    }

    private Optional<PointFormat> bitField(String argument) {
        String[] ends = argument.split("-", -1);
        if (ends.length != 2) {
            row.error("format", "must be bits:LOW-HIGH, like bits:4-7 (was '" + text + "')");
            return Optional.empty();
        }
        OptionalInt low = bitIndex(ends[0]);
        OptionalInt high = bitIndex(ends[1]);
        if (low.isEmpty() || high.isEmpty()) {
            return Optional.empty();
        }
        int count = high.getAsInt() - low.getAsInt() + 1;
        if (count < 2 || count > 15) {
            row.error("format", "must hold 2 to 15 bits, the lower one first (was '" + text + "')");
            return Optional.empty();
        }
        return Optional.of(new PointFormat.BitField(low.getAsInt(), count, text));
    }

    private OptionalInt bitIndex(String written) {
        int index = written.matches("\\d{1,2}") ? Integer.parseInt(written) - type.firstBit() : -1;
        if (index < 0 || index > 15) {
            row.error(
                    "format",
                    "a register has bits " + type.firstBit() + " to " + (type.firstBit() + 15) + " (was '" + text
                            + "')");
            return OptionalInt.empty();
        }
        return OptionalInt.of(index);
    }

    private Optional<PointFormat> unknown() {
        row.error(
                "format",
                "must be one of " + String.join(", ", KNOWN) + " (was '" + text + "')" + NearestWord.hint(text, KNOWN));
        return Optional.empty();
    }
}
