package burnerbridge.simulator.registers;

import burnerbridge.simulator.modbus.ModbusTable;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;

/**
 * Reads a register table. A line is empty, or one of these; what stands behind a semicolon is for people:
 *
 * <pre>
 * count-from 1                           the number of the first address in each table; with prefixed they
 *                                        count from 1 and have the table's digit in front, 30001
 * first-bit 0                            the number of a register's least significant bit
 * longest 40                             how many registers are answered in one read
 * codes phase: 0 standby | 12 pre-purge  the numbers of words
 * input 8 s16 step=0.1 none=0x7FFF supply-temperature
 * input 12-14 spare                      answered with 0
 * </pre>
 *
 * <p>The tables are {@code coil}, {@code discrete}, {@code input}, {@code holding}, and {@code both} for
 * registers that stand in the last two. What is in no line is refused.
 */
final class TableReader {
    private static final Map<String, List<ModbusTable>> TABLES = Map.of(
            "coil", List.of(ModbusTable.COIL),
            "discrete", List.of(ModbusTable.DISCRETE_INPUT),
            "input", List.of(ModbusTable.INPUT_REGISTER),
            "holding", List.of(ModbusTable.HOLDING_REGISTER),
            "both", List.of(ModbusTable.INPUT_REGISTER, ModbusTable.HOLDING_REGISTER));

    private static final String SPARE = "spare";

    private final Map<String, Map<String, Integer>> codes = new HashMap<>();
    private final List<Row> rows = new ArrayList<>();
    private boolean prefixed;
    private int countFrom;
    private int firstBit;
    private int longest = ModbusTable.HOLDING_REGISTER.mostPerRequest();

    private TableReader() {}

    static RegisterTable read(String file, List<String> lines) {
        TableReader reader = new TableReader();
        for (int i = 0; i < lines.size(); i++) {
            try {
                reader.take(lines.get(i).split(";", 2)[0].strip());
            } catch (IllegalArgumentException e) {
                throw new IllegalArgumentException(file + ":" + (i + 1) + ": " + e.getMessage(), e);
            }
        }
        return new RegisterTable(reader.rows, reader.longest);
    }

    private void take(String line) {
        String[] words = line.split("\\s+");
        switch (words[0]) {
            case "" -> {}
            case "count-from" -> countFrom(words[1]);
            case "first-bit" -> firstBit = whole(words[1]);
            case "longest" -> longest = whole(words[1]);
            case "codes" -> takeCodes(line.substring("codes".length()));
            default -> takeRow(words);
        }
    }

    private void countFrom(String word) {
        prefixed = word.equals("prefixed");
        countFrom = prefixed ? 1 : whole(word);
    }

    private int address(int number) {
        return (prefixed ? number % 10_000 : number) - countFrom;
    }

    private void takeCodes(String line) {
        String[] parts = line.split(":", 2);
        Map<String, Integer> numbers = new HashMap<>();
        for (String code : parts[1].split("\\|")) {
            String[] words = code.strip().split(" ", 2);
            numbers.put(words[1], whole(words[0]));
        }
        codes.put(parts[0].strip(), numbers);
    }

    private void takeRow(String[] words) {
        List<ModbusTable> tables = TABLES.get(words[0]);
        if (tables == null) {
            throw new IllegalArgumentException("'" + words[0] + "' is no table");
        }
        if (words[2].equals(SPARE)) {
            takeSpare(tables, words[1]);
            return;
        }
        double step = 1;
        double offset = 0;
        OptionalInt none = OptionalInt.empty();
        for (String option : List.of(words).subList(3, words.length - 1)) {
            String[] parts = option.split("=", 2);
            switch (parts[0]) {
                case "step" -> step = fraction(parts[1]);
                case "offset" -> offset = Double.parseDouble(parts[1]);
                case "none" -> none = OptionalInt.of(whole(parts[1]));
                default -> throw new IllegalArgumentException("'" + option + "' is neither step, offset nor none");
            }
        }
        String told = words[words.length - 1];
        rows.add(new Row(
                tables,
                address(whole(words[1])),
                Forms.of(words[2], firstBit),
                step,
                offset,
                none,
                codesOf(told),
                Signals.of(told),
                command(tables, words[2], told)));
    }

    private void takeSpare(List<ModbusTable> tables, String range) {
        String[] ends = range.split("-", 2);
        for (int number = whole(ends[0]); number <= whole(ends[ends.length - 1]); number++) {
            rows.add(new Row(
                    tables,
                    address(number),
                    Forms.of(tables.get(0).holdsBits() ? "bit" : "u16", firstBit),
                    1,
                    0,
                    OptionalInt.empty(),
                    Map.of(),
                    Signals.of("=0"),
                    Optional.empty()));
        }
    }

    /** Whole coils and holding registers of what a boiler can be told; inputs cannot be written at all. */
    private static Optional<Command> command(List<ModbusTable> tables, String form, String told) {
        boolean coil = tables.contains(ModbusTable.COIL) && form.equals("bit");
        boolean register = tables.contains(ModbusTable.HOLDING_REGISTER) && form.equals("u16");
        return coil || register ? Command.of(told) : Optional.empty();
    }

    /** Those of its last word: of {@code slot-3-cause} those of causes. */
    private Map<String, Integer> codesOf(String signal) {
        for (Map.Entry<String, Map<String, Integer>> each : codes.entrySet()) {
            if (signal.equals(each.getKey())
                    || signal.endsWith("-" + each.getKey())
                    || signal.equals(each.getKey() + "-chosen")) {
                return each.getValue();
            }
        }
        return Map.of();
    }

    private static int whole(String word) {
        return word.startsWith("0x") ? Integer.parseInt(word.substring(2), 16) : Integer.parseInt(word);
    }

    private static double fraction(String word) {
        String[] parts = word.split("/", 2);
        double top = Double.parseDouble(parts[0]);
        return parts.length == 1 ? top : top / Double.parseDouble(parts[1]);
    }
}
