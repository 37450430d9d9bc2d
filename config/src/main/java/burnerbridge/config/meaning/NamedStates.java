package burnerbridge.config.meaning;

import burnerbridge.config.csv.CellHabits;
import burnerbridge.config.problem.NearestWord;
import burnerbridge.config.row.PointRow;
import burnerbridge.site.States;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.stream.Collectors;

/** Reads states of a point as a cell names them, by number or by text: {@code 5|6}, {@code gas}. */
public final class NamedStates {
    private static final int MOST_LISTED = 30;
    private static final States BIT = new States(new TreeMap<>(Map.of(0L, "0", 1L, "1")));

    private final PointRow row;
    private final String column;
    private final String subject;
    private final States known;

    /**
     * @param subject who has the states, for messages
     * @param states of the point; a bit may have none
     */
    public NamedStates(PointRow row, String column, String subject, States states) {
        this.row = row;
        this.column = column;
        this.subject = subject;
        this.known = states.isEmpty() ? BIT : states;
    }

    /** Empty where one of them is not there; then it is told. */
    public Optional<Set<Long>> read(String text) {
        Set<Long> states = new TreeSet<>();
        for (String part : text.split("\\|", -1)) {
            Optional<Long> state = state(part.strip());
            if (state.isEmpty()) {
                row.error(
                        column,
                        subject + " has no state '" + part.strip() + "' (has " + list() + ")"
                                + NearestWord.hint(part.strip(), known.texts().values()));
                return Optional.empty();
            }
            if (!states.add(state.get())) {
                row.error(column, "state '" + part.strip() + "' of " + subject + " stands here twice");
            }
        }
        return Optional.of(states);
    }

    /** By number first, since a text may look like one. */
    private Optional<Long> state(String part) {
        return known.texts().keySet().stream()
                .filter(number -> part.equals(Long.toString(number)))
                .findFirst()
                .or(() -> known.texts().entrySet().stream()
                        .filter(state ->
                                CellHabits.plainDashes(state.getValue()).equals(part))
                        .map(Map.Entry::getKey)
                        .findFirst());
    }

    private String list() {
        String all = known.texts().entrySet().stream()
                .limit(MOST_LISTED)
                .map(state -> known == BIT ? state.getValue() : state.getKey() + "=" + state.getValue())
                .collect(Collectors.joining("|"));
        return known.texts().size() > MOST_LISTED ? all + "|…" : all;
    }
}
