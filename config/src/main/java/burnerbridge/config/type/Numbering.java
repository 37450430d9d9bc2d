package burnerbridge.config.type;

import burnerbridge.site.AddressRange;
import burnerbridge.site.Name;
import burnerbridge.site.RegisterTable;
import java.util.Arrays;
import java.util.LinkedHashSet;
import java.util.Locale;
import java.util.OptionalInt;
import java.util.Set;

/** How a manual counts its addresses. It is stated for each type and never guessed. */
public enum Numbering {
    /** As they travel: 0 to 65535. */
    WIRE("0 to 65535"),
    /** One up from the wire: 1 to 65536 (the numbering of the Modbus data model). */
    DATA_MODEL("1 to 65536"),
    /** As the data model, with the table's digit in front: 40001 or 400001. */
    PREFIXED("the table's digit and four or five digits, like 40001 or 400001");

    private final String allowed;

    Numbering(String allowed) {
        this.allowed = allowed;
    }

    public String word() {
        return name().toLowerCase(Locale.ROOT).replace('_', '-');
    }

    static Set<String> words() {
        Set<String> words = new LinkedHashSet<>();
        Arrays.stream(values()).forEach(n -> words.add(n.word()));
        return words;
    }

    static Numbering ofWord(String word) {
        return valueOf(word.toUpperCase(Locale.ROOT).replace('-', '_'));
    }

    /** The wire address of a written one; empty where the numbering has no such address. */
    public OptionalInt wireAddress(RegisterTable table, String written) {
        if (this == PREFIXED) {
            return prefixed(table, written);
        }
        OptionalInt number = number(written);
        int wire = number.orElse(-1) - (this == DATA_MODEL ? 1 : 0);
        return number.isPresent() && wire >= 0 && wire <= 0xFFFF ? OptionalInt.of(wire) : OptionalInt.empty();
    }

    private static OptionalInt prefixed(RegisterTable table, String written) {
        if (!written.matches("[0134]\\d{4,5}") || written.charAt(0) - '0' != table.prefix()) {
            return OptionalInt.empty();
        }
        int wire = Integer.parseInt(written.substring(1)) - 1;
        return wire >= 0 && wire <= 0xFFFF ? OptionalInt.of(wire) : OptionalInt.empty();
    }

    /** Decimal, with leading zeros as digits, or hexadecimal with 0x. */
    private static OptionalInt number(String written) {
        if (written.matches("0[xX][0-9a-fA-F]{1,5}")) {
            return OptionalInt.of(Integer.parseInt(written.substring(2), 16));
        }
        return written.matches("\\d{1,7}") ? OptionalInt.of(Integer.parseInt(written)) : OptionalInt.empty();
    }

    /** A wire address as this numbering has it. */
    String written(RegisterTable table, int wire) {
        if (this == WIRE) {
            return Integer.toString(wire);
        }
        String number = Integer.toString(wire + 1);
        int digits = number.length() > 4 ? 5 : 4;
        return this == DATA_MODEL ? number : table.prefix() + "0".repeat(digits - number.length()) + number;
    }

    /** A range in both numberings, for messages: {@code holding-register 900-999 (wire 899..998)}. */
    public String text(AddressRange range) {
        String first = range.table().word() + " " + written(range.table(), range.first());
        return range.count() == 1
                ? first + " (wire " + range.first() + ")"
                : first + "-" + written(range.table(), range.last()) + " (wire " + range.first() + ".." + range.last()
                        + ")";
    }

    /** Why a written address is none of a table. */
    public String objection(RegisterTable table, Name type, String written) {
        return "must be " + allowed(table) + ", since the numbering of type " + type + " is " + word() + " (was '"
                + written + "')" + doubt(table, written);
    }

    /** {@code "; …"} where a refused address is right in another numbering, or of another table. */
    private String doubt(RegisterTable table, String written) {
        if (this == PREFIXED) {
            return Arrays.stream(RegisterTable.values())
                    .filter(other -> other != table && prefixed(other, written).isPresent())
                    .findFirst()
                    .map(other -> "; with that digit in front it is a " + other.word())
                    .orElseGet(() -> number(written).isPresent() && written.length() < 5
                            ? "; a manual without the digit counts as " + WIRE.word() + " or " + DATA_MODEL.word()
                            : "");
        }
        if (this == DATA_MODEL && number(written).orElse(-1) == 0) {
            return "; a manual with an address 0 counts as " + WIRE.word();
        }
        return PREFIXED.wireAddress(table, written).isPresent() ? "; it looks like numbering " + PREFIXED.word() : "";
    }

    /** What an address may be, for messages. */
    String allowed(RegisterTable table) {
        return this == PREFIXED ? allowed + ", here beginning with " + table.prefix() : allowed;
    }
}
