package burnerbridge.config.type;

import burnerbridge.config.problem.NearestWord;
import burnerbridge.site.AddressRange;
import burnerbridge.site.Name;
import burnerbridge.site.RegisterTable;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.function.Consumer;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** Addresses of a table as {@code site.yaml} has them, in the type's numbering: {@code holding-register 900-999}. */
final class RangeText {
    static final String EXAMPLE = "a table and its addresses, like holding-register 900-999";

    private static final Pattern FORM = Pattern.compile("([A-Za-z-]+)\\s+(\\w+)(?:\\s*-\\s*(\\w+))?");
    private static final List<String> TABLES =
            Arrays.stream(RegisterTable.values()).map(RegisterTable::word).toList();

    private RangeText() {}

    /** Empty where the text is wrong; then {@code problem} is told how. */
    static Optional<AddressRange> read(String text, Name type, Numbering numbering, Consumer<String> problem) {
        Matcher form = FORM.matcher(text);
        if (!form.matches()) {
            problem.accept("must be " + EXAMPLE + " (was '" + text + "')");
            return Optional.empty();
        }
        int table = TABLES.indexOf(form.group(1));
        if (table < 0) {
            problem.accept("must begin with one of " + String.join(", ", TABLES) + " (was '" + form.group(1) + "')"
                    + NearestWord.hint(form.group(1), TABLES));
            return Optional.empty();
        }
        return range(RegisterTable.values()[table], form, new Addresses(type, numbering, problem));
    }

    private record Addresses(Name type, Numbering numbering, Consumer<String> problem) {
        OptionalInt wire(RegisterTable table, String written) {
            OptionalInt wire = numbering.wireAddress(table, written);
            if (wire.isEmpty()) {
                problem.accept(numbering.objection(table, type, written));
            }
            return wire;
        }
    }

    private static Optional<AddressRange> range(RegisterTable table, Matcher form, Addresses addresses) {
        OptionalInt first = addresses.wire(table, form.group(2));
        OptionalInt last = form.group(3) == null ? first : addresses.wire(table, form.group(3));
        if (first.isEmpty() || last.isEmpty()) {
            return Optional.empty();
        }
        if (first.getAsInt() > last.getAsInt()) {
            addresses
                    .problem()
                    .accept("must run from the lower address to the higher (was '" + form.group(2) + "-" + form.group(3)
                            + "')");
            return Optional.empty();
        }
        return Optional.of(new AddressRange(table, first.getAsInt(), last.getAsInt()));
    }
}
