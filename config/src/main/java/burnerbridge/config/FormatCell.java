package burnerbridge.config;

import burnerbridge.site.PointFormat;
import burnerbridge.site.RegisterTable;
import burnerbridge.site.WordOrder;
import java.util.List;
import java.util.Optional;

/** Reads the {@code format} and {@code order} columns. */
final class FormatCell {
    /** In the standing list of formats, for a later version. */
    private static final List<String> NOT_YET = List.of(
            "uint32",
            "int32",
            "uint64",
            "int64",
            "float64",
            "int8-high",
            "int8-low",
            "uint8-high",
            "uint8-low",
            "sign-magnitude16",
            "bcd16",
            "bcd32",
            "decimal-words",
            "bits",
            "text",
            "datetime",
            "epoch32",
            "reserved");

    private static final List<String> KNOWN = List.of("uint16", "int16", "float32", "bit", "bit:N");

    private FormatCell() {}

    static Optional<PointFormat> read(PointRow row, RegisterTable table, TypeSettings type) {
        String text = row.required("format");
        Optional<WordOrder> order = row.word("order", Orders.BY_WORD.keySet()).map(Orders.BY_WORD::get);
        if (text.isEmpty()) {
            return Optional.empty();
        }
        Optional<PointFormat> format = parse(row, text, order.orElse(type.order()), type);
        if (format.isPresent() && table.ofBits() != (format.get() instanceof PointFormat.Bit)) {
            row.error(
                    "format",
                    table.ofBits()
                            ? "a " + table.word() + " takes only 'bit' (was '" + text + "')"
                            : "'bit' is for coils and discrete inputs; a bit of a register is 'bit:N'");
            return Optional.empty();
        }
        if (order.isPresent() && format.isPresent() && format.get().width() == 1) {
            row.error("order", "means nothing for the single register of '" + text + "'");
        }
        return format;
    }

    private static Optional<PointFormat> parse(PointRow row, String text, WordOrder order, TypeSettings type) {
        switch (text) {
            case "bit":
                return Optional.of(new PointFormat.Bit());
            case "uint16":
                return Optional.of(new PointFormat.Uint16());
            case "int16":
                return Optional.of(new PointFormat.Int16());
            case "float32":
                return Optional.of(new PointFormat.Float32(order));
            default:
                return text.matches("bit:\\d{1,2}") ? registerBit(row, text, type) : unknown(row, text);
        }
    }

    private static Optional<PointFormat> registerBit(PointRow row, String text, TypeSettings type) {
        int written = Integer.parseInt(text.substring("bit:".length()));
        int index = written - type.firstBit();
        if (index < 0 || index > 15) {
            row.error(
                    "format",
                    "a register has bits " + type.firstBit() + " to " + (type.firstBit() + 15) + " (was '" + text
                            + "')");
            return Optional.empty();
        }
        return Optional.of(new PointFormat.RegisterBit(index, written));
    }

    private static Optional<PointFormat> unknown(PointRow row, String text) {
        String word = text.replaceAll(":.*", "");
        row.error(
                "format",
                NOT_YET.contains(word)
                        ? "'" + text + "' is not supported by this version yet"
                        : "must be one of " + String.join(", ", KNOWN) + " (was '" + text + "')"
                                + NearestWord.hint(text, KNOWN));
        return Optional.empty();
    }
}
