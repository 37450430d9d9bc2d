package burnerbridge.config.meaning;

import burnerbridge.config.row.PointRow;
import burnerbridge.site.StateNumbers;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.stream.Collectors;

/** Reads and writes the {@code states} column of the bindings: {@code 0=1|12=2}, state and multi-state number. */
public final class StateNumbersCell {
    private StateNumbersCell() {}

    public static StateNumbers read(PointRow row) {
        Map<Long, Integer> numbers = new LinkedHashMap<>();
        if (row.has("states")) {
            for (String part : row.text("states").split("\\|", -1)) {
                readOne(row, part.strip(), numbers);
            }
        }
        return row.isFaulty() ? StateNumbers.NONE : new StateNumbers(numbers);
    }

    private static void readOne(PointRow row, String part, Map<Long, Integer> numbers) {
        if (!part.matches("-?\\d{1,10}\\s*=\\s*\\d{1,4}")) {
            row.error(
                    "states",
                    "must be the controller's number = the multi-state number, separated by |, like 0=1|12=2 (was '"
                            + part + "')");
            return;
        }
        long state = Long.parseLong(part.substring(0, part.indexOf('=')).strip());
        int number = Integer.parseInt(part.substring(part.indexOf('=') + 1).strip());
        if (number < 1 || number > StateNumbers.HIGHEST) {
            row.error("states", "a multi-state number is 1 to " + StateNumbers.HIGHEST + " (was " + number + ")");
        } else if (numbers.containsValue(number)) {
            row.error("states", "multi-state number " + number + " stands here twice");
        } else if (numbers.putIfAbsent(state, number) != null) {
            row.error("states", "state " + state + " stands here twice");
        }
    }

    public static String text(StateNumbers numbers) {
        return numbers.byState().entrySet().stream()
                .map(entry -> entry.getKey() + "=" + entry.getValue())
                .collect(Collectors.joining("|"));
    }
}
