package burnerbridge.config.meaning;

import burnerbridge.config.register.HeldNumbers;
import burnerbridge.config.row.Language;
import burnerbridge.config.row.PointRow;
import burnerbridge.site.Meaning;
import burnerbridge.site.PointFormat;
import burnerbridge.site.Severity;
import burnerbridge.site.States;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;
import java.util.Set;

/** Reads the {@code states} column: {@code 0=standby|1=purge}. */
public final class StatesCell {
    private static final Set<String> CAUSES = Set.of(Meaning.FAULT_CAUSE.word(), Meaning.PAST_FAULT_CAUSE.word());

    private StatesCell() {}

    /** The states of a row; those of a point that tells a cause and has none of its own are the type's causes. */
    public static States read(PointRow row, Optional<PointFormat> format, States causes) {
        return takesCauses(row) && format.filter(PointFormat::isWhole).isPresent()
                ? held(row, format.orElseThrow(), causes)
                : read(row);
    }

    public static boolean takesCauses(PointRow row) {
        return !row.has("states") && CAUSES.contains(row.text(MeaningCell.COLUMN));
    }

    /** One file serves points of many widths, so that what is too large for one is no mistake. */
    private static States held(PointRow row, PointFormat format, States causes) {
        Map<Long, String> texts = new LinkedHashMap<>(causes.texts());
        HeldNumbers held = new HeldNumbers(format);
        texts.keySet().removeIf(number -> !held.contains(number));
        if (texts.size() < causes.texts().size()) {
            row.note(
                    "format",
                    "of the " + causes.texts().size() + " causes of its type, a " + format.word() + " can hold "
                            + texts.size());
        }
        Map<Long, Severity> severities = new HashMap<>(causes.severities());
        severities.keySet().retainAll(texts.keySet());
        return new States(texts, severities);
    }

    private static States read(PointRow row) {
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
        } else if (text.length() > Language.LONGEST_TEXT) {
            row.error(
                    "states",
                    "a text has at most " + Language.LONGEST_TEXT + " characters (was " + text.length() + ")");
        } else if (Optional.ofNullable(texts.put(Long.parseLong(number), text)).isPresent()) {
            row.error("states", "state " + number + " stands here twice");
        }
    }
}
