package burnerbridge.config;

import burnerbridge.site.States;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;

/** Reads the {@code states} column: {@code 0=standby|1=purge}. */
final class StatesCell {
    private static final int LONGEST_TEXT = 64;

    private StatesCell() {}

    static States read(PointRow row) {
        Map<Long, String> texts = new LinkedHashMap<>();
        if (row.has("states")) {
            for (String part : row.text("states").split("\\|", -1)) {
                readOne(row, part.strip(), texts);
            }
        }
        return new States(texts);
    }

    private static void readOne(PointRow row, String part, Map<Long, String> texts) {
        int equals = part.indexOf('=');
        String number = equals < 0 ? "" : part.substring(0, equals).strip();
        String text = part.substring(equals + 1).strip();
        if (!number.matches("-?\\d{1,10}") || text.isEmpty() || text.indexOf('=') >= 0) {
            row.error("states", "must be number=text, separated by |, like 0=standby|1=purge (was '" + part + "')");
        } else if (text.length() > LONGEST_TEXT) {
            row.error("states", "a text has at most " + LONGEST_TEXT + " characters (was " + text.length() + ")");
        } else if (Optional.ofNullable(texts.put(Long.parseLong(number), text)).isPresent()) {
            row.error("states", "state " + number + " stands here twice");
        }
    }
}
