package burnerbridge.config;

import burnerbridge.config.RandomUnit.Controller;
import burnerbridge.config.RandomUnit.Row;
import burnerbridge.config.RandomUnit.Type;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.IntStream;
import java.util.stream.Stream;

/**
 * What of a unit can never be written, by brute force: every bit of every register is an element of a set, made of the
 * texts of its rows. It knows nothing of the code that it judges.
 */
final class BitOracle {
    private static final Set<String> MAY_BE_PERMITTED =
            Set.of("demand", "enable", "mode", "heartbeat", "record-select");
    private static final int LAST = 65535;

    private final Set<String> forbidden = new TreeSet<>();
    private final boolean separate;

    BitOracle(List<Controller> inUnit) {
        separate = inUnit.stream().allMatch(c -> c.type().tables().equals("separate"));
        inUnit.forEach(this::add);
    }

    /** All of it, each bit as {@code table/address/bit}. */
    Set<String> forbidden() {
        return forbidden;
    }

    boolean isSeparate() {
        return separate;
    }

    private void add(Controller controller) {
        Type type = controller.type();
        for (Row row : type.rows()) {
            boolean free = MAY_BE_PERMITTED.contains(row.role()) && !row.means().equals("fuel");
            if (!free) {
                bits(controller, row).forEach(forbidden::add);
            }
        }
        for (String range : type.protectedRanges()) {
            String table = range.split(" ")[0];
            String[] ends = range.split(" ")[1].split("-");
            int first = wire(type, ends[0]) + controller.offset();
            int last = wire(type, ends[ends.length - 1]) + controller.offset();
            IntStream.rangeClosed(first, Math.min(LAST, last))
                    .forEach(address -> allBits(table).forEach(bit -> forbidden.add(bit(table, address, bit))));
        }
    }

    private static String bit(String table, int address, int bit) {
        return table + "/" + address + "/" + bit;
    }

    private static IntStream allBits(String table) {
        return table.endsWith("register") ? IntStream.range(0, 16) : IntStream.of(0);
    }

    static int wire(Type type, String written) {
        return switch (type.numbering()) {
            case "wire" ->
                written.startsWith("0x") ? Integer.parseInt(written.substring(2), 16) : Integer.parseInt(written);
            case "data-model" -> Integer.parseInt(written) - 1;
            default -> Integer.parseInt(written.substring(1)) - 1;
        };
    }

    /** The addresses on the wire that a row takes. */
    static IntStream addresses(Controller controller, Row row) {
        if (row.address().contains("+")) {
            return Stream.of(row.address().split("\\+"))
                    .mapToInt(part -> wire(controller.type(), part) + controller.offset());
        }
        int first = wire(controller.type(), row.address()) + controller.offset();
        return IntStream.range(first, first + width(row.format()));
    }

    private static int width(String format) {
        String[] parts = format.split(":");
        return switch (parts[0]) {
            case "uint32", "float32", "bcd32", "epoch32" -> 2;
            case "uint64", "float64" -> 4;
            case "decimal-words", "text", "reserved" -> Integer.parseInt(parts[1]);
            case "datetime" -> parts[1].split("-").length;
            default -> 1;
        };
    }

    private static Stream<String> bits(Controller controller, Row row) {
        return addresses(controller, row)
                .boxed()
                .flatMap(address -> bitsOf(controller.type(), row).mapToObj(bit -> bit(row.table(), address, bit)));
    }

    private static IntStream bitsOf(Type type, Row row) {
        String[] parts = row.format().split(":");
        return switch (parts[0]) {
            case "bit" -> IntStream.of(parts.length == 1 ? 0 : Integer.parseInt(parts[1]) - type.firstBit());
            case "bits" -> {
                String[] ends = parts[1].split("-");
                yield IntStream.rangeClosed(
                        Integer.parseInt(ends[0]) - type.firstBit(), Integer.parseInt(ends[1]) - type.firstBit());
            }
            case "uint8-high", "int8-high" -> IntStream.range(8, 16);
            case "uint8-low", "int8-low" -> IntStream.range(0, 8);
            default -> allBits(row.table());
        };
    }

    /** Whether a write of whole coils or registers could change something that is forbidden. */
    boolean forbids(String table, IntStream addresses) {
        boolean ofRegisters = table.endsWith("register");
        return addresses.anyMatch(address -> forbidden.stream().anyMatch(bit -> {
            String[] parts = bit.split("/");
            boolean sameAddress = Integer.parseInt(parts[1]) == address;
            if (separate) {
                return parts[0].equals(table) && sameAddress;
            }
            // Nobody has said where a coil lies in the registers: it may be any bit of them.
            return parts[0].endsWith("register") != ofRegisters || sameAddress;
        }));
    }
}
