package burnerbridge.config.permit;

import burnerbridge.config.yaml.YamlMap;
import burnerbridge.site.RegisterTable;
import burnerbridge.site.permit.Functions;
import java.util.Collection;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;

/** Reads {@code function}: one that writes, and that fits the row. */
final class FunctionKey {
    private static final String KEY = PermitKeys.FUNCTION;

    private FunctionKey() {}

    /** Empty where it is missing or wrong; then it is told. */
    static OptionalInt read(YamlMap map, Optional<PermitRow> row) {
        Optional<String> text = map.requiredText(
                KEY, "which one the manual names: 5 or 15 for a coil, 6 or 16 for a register, 16 for several");
        if (text.isEmpty()) {
            return OptionalInt.empty();
        }
        OptionalInt function = Functions.ALL.stream()
                .filter(number -> text.get().equals(Integer.toString(number)))
                .mapToInt(Integer::intValue)
                .findFirst();
        if (function.isEmpty()) {
            map.error(KEY, "must be one of " + list(Functions.ALL, ", ") + " (was '" + text.get() + "')");
            return function;
        }
        return row.filter(r -> r.isWritableTable() && r.isEncodable())
                        .map(r -> fits(map, r, function.getAsInt()))
                        .orElse(true)
                ? function
                : OptionalInt.empty();
    }

    private static boolean fits(YamlMap map, PermitRow row, int function) {
        Set<Integer> fitting = fitting(row);
        if (!fitting.contains(function)) {
            map.error(
                    KEY,
                    "must be " + list(fitting, " or ") + ", since " + row.text() + " is " + what(row) + " (was "
                            + function + ")");
        }
        return fitting.contains(function);
    }

    private static Set<Integer> fitting(PermitRow row) {
        if (row.point().table() == RegisterTable.COIL) {
            return new TreeSet<>(Set.of(Functions.SINGLE_COIL, Functions.COILS));
        }
        if (row.isPartOfRegister()) {
            return Set.of(Functions.MASK);
        }
        return row.point().format().width() == 1
                ? new TreeSet<>(Set.of(Functions.SINGLE_REGISTER, Functions.REGISTERS))
                : Set.of(Functions.REGISTERS);
    }

    private static String what(PermitRow row) {
        if (row.point().table() == RegisterTable.COIL) {
            return "a coil";
        }
        if (row.isPartOfRegister()) {
            return "part of a register ('" + row.point().format().word()
                    + "'), and 22 alone leaves its other bits as they are";
        }
        int width = row.point().format().width();
        return width == 1 ? "one register" : width + " registers";
    }

    private static String list(Collection<Integer> functions, String between) {
        return functions.stream().map(String::valueOf).collect(Collectors.joining(between));
    }
}
