package burnerbridge.config;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.stream.Collectors;

/**
 * A unit of several controllers of several types, drawn at random and kept as the texts of its files alone. Its points
 * lie below wire address 70, and the offsets of its controllers apart by more, so that no two meet; its protected
 * ranges reach wherever they like.
 */
final class RandomUnit {
    /** Above all points of a type. */
    static final int SPAN = 70;

    private static final int ROWS_END = 60;
    private static final List<String> NUMBERINGS = List.of("wire", "data-model", "prefixed");
    private static final List<String> TABLES =
            List.of("coil", "discrete-input", "input-register", "holding-register", "holding-register");
    private static final List<String> FORMATS = List.of(
            "uint16",
            "int16",
            "uint32",
            "uint64",
            "float32",
            "float64",
            "uint8-high",
            "uint8-low",
            "int8-high",
            "int8-low",
            "sign-magnitude16",
            "bcd16",
            "bcd32",
            "decimal-words:2",
            "decimal-words:4",
            "text:1",
            "text:5",
            "epoch32",
            "datetime:y-md-hn");
    private static final List<String> ROLES = List.of(
            "measurement",
            "status",
            "counter",
            "identity",
            "fault-record",
            "setting",
            "safety-setting",
            "curve",
            "lockout-reset",
            "clock",
            "demand",
            "demand",
            "enable",
            "enable",
            "mode",
            "mode",
            "heartbeat",
            "record-select");

    /** A row as it is written; {@code role} is empty for a reserved one. */
    record Row(String name, String table, String address, String format, String role, String means, String access) {
        String csv() {
            return String.join(",", name, table, address, format, role, means, access, "p. 1");
        }
    }

    /** A type as it is written; {@code tables} is empty where nothing is said of them. */
    record Type(
            String name, String numbering, int firstBit, String tables, List<String> protectedRanges, List<Row> rows) {}

    /** A controller as it is written. */
    record Controller(String name, int unit, Type type, int offset) {}

    final List<Type> types = new ArrayList<>();
    final List<Controller> controllers = new ArrayList<>();

    private final Random random;

    RandomUnit(Random random) {
        this.random = random;
        boolean allSeparate = random.nextBoolean();
        for (int i = 0; i < 1 + random.nextInt(3); i++) {
            types.add(type("kind-" + i, allSeparate));
        }
        for (int i = 0; i < 1 + random.nextInt(3); i++) {
            controllers.add(new Controller("boiler-" + i, 1, pick(types), i * SPAN));
        }
        controllers.add(new Controller("other", 2, pick(types), 7));
    }

    private <T> T pick(List<T> list) {
        return list.get(random.nextInt(list.size()));
    }

    private Type type(String name, boolean separate) {
        String numbering = pick(NUMBERINGS);
        int firstBit = random.nextInt(2);
        String tables = separate ? "separate" : pick(List.of("", "mirror", "separate"));
        List<Row> rows = new ArrayList<>();
        rows.add(new Row(
                "serial",
                "holding-register",
                written(numbering, "holding-register", ROWS_END),
                "text:4",
                "identity",
                "",
                ""));
        for (int i = 0; i < 2 + random.nextInt(8); i++) {
            rows.add(row("row-" + i, numbering, firstBit));
        }
        if (random.nextInt(3) == 0) {
            String table = pick(TABLES);
            String address = written(numbering, table, ROWS_END + 4 + random.nextInt(3));
            rows.add(new Row("", table, address, "reserved:" + (1 + random.nextInt(3)), "", "", ""));
        }
        if (random.nextInt(3) == 0) {
            String address = written(numbering, "holding-register", random.nextInt(ROWS_END));
            rows.add(new Row("fuel", "holding-register", address, "bit:" + (firstBit + 3), "mode", "fuel", ""));
        }
        List<String> ranges = new ArrayList<>();
        for (int i = 0; i < 1 + random.nextInt(2); i++) {
            ranges.add(range(numbering, tables));
        }
        return new Type(name, numbering, firstBit, tables, ranges, rows);
    }

    private Row row(String name, String numbering, int firstBit) {
        String table = pick(TABLES);
        String role = pick(ROLES);
        int wire = random.nextInt(ROWS_END - 6);
        String format = table.endsWith("register") ? format(firstBit) : "bit";
        String address = written(numbering, table, wire);
        if (format.equals("uint32") && random.nextInt(3) == 0) {
            address += "+" + written(numbering, table, (wire + 2 + random.nextInt(20)) % ROWS_END);
        }
        boolean mayBeWriteOnly = List.of("setting", "safety-setting", "curve", "demand", "enable", "lockout-reset")
                .contains(role);
        return new Row(name, table, address, format, role, "", mayBeWriteOnly && random.nextInt(5) == 0 ? "write" : "");
    }

    private String format(int firstBit) {
        int low = random.nextInt(14);
        return switch (random.nextInt(4)) {
            case 0 -> "bit:" + (firstBit + low);
            case 1 -> "bits:" + (firstBit + low) + "-" + (firstBit + low + 1 + random.nextInt(Math.min(14, 15 - low)));
            default -> pick(FORMATS);
        };
    }

    /** Any length, also past the end of the table where a controller moves it. */
    private String range(String numbering, String tables) {
        String table = pick(
                tables.equals("mirror")
                        ? List.of("coil", "holding-register", "input-register")
                        : List.of("coil", "holding-register"));
        int first = random.nextInt(random.nextInt(4) == 0 ? 9990 : 3 * SPAN);
        int last = first + random.nextInt(random.nextInt(4) == 0 ? 9 : 2);
        return table + " " + written(numbering, table, first)
                + (last == first ? "" : "-" + written(numbering, table, last));
    }

    private String written(String numbering, String table, int wire) {
        return switch (numbering) {
            case "wire" -> random.nextBoolean() ? Integer.toString(wire) : "0x" + Integer.toHexString(wire);
            case "data-model" -> Integer.toString(wire + 1);
            default -> {
                String digits = Integer.toString(wire + 1);
                yield prefix(table) + "0".repeat(Math.max(0, 4 - digits.length())) + digits;
            }
        };
    }

    private static String prefix(String table) {
        return switch (table) {
            case "coil" -> "0";
            case "discrete-input" -> "1";
            case "input-register" -> "3";
            default -> "4";
        };
    }

    /** @param permits entries of the list, as lines */
    String yaml(List<String> permits) {
        StringBuilder text = new StringBuilder("""
                site: quillmere
                time-zone: Europe/Lisbon
                lines: {annex: {tcp: {host: 192.0.2.7}}}
                mqtt: {brokers: ['tcp://127.0.0.1:1883'], root: plant}
                types:
                """);
        for (Type type : types) {
            text.append("  " + type.name() + ": {points: " + type.name() + ".csv, numbering: " + type.numbering()
                    + ", first-bit: " + type.firstBit() + (type.tables().isEmpty() ? "" : ", tables: " + type.tables())
                    + ", identity: serial, protected: [" + String.join(", ", type.protectedRanges()) + "]}\n");
        }
        text.append("controllers:\n");
        for (Controller controller : controllers) {
            text.append("  " + controller.name() + ": {line: annex, unit: " + controller.unit() + ", type: "
                    + controller.type().name() + ", address-offset: " + controller.offset() + "}\n");
        }
        text.append(permits.isEmpty() ? "" : "write-permits:\n");
        permits.forEach(permit -> text.append("  - " + permit + "\n"));
        return text.toString();
    }

    static String csv(Type type) {
        return "name,table,address,format,role,means,access,source\n"
                + type.rows().stream().map(Row::csv).collect(Collectors.joining("\n")) + "\n";
    }
}
