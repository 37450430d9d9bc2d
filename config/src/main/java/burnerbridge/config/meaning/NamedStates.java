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
import java.util.function.Consumer;
import java.util.stream.Collectors;

/** Reads states of a point as somebody names them, by number or by text: {@code 5|6}, {@code gas}. */
public final class NamedStates {
    private static final int MOST_LISTED = 30;
    private static final States BIT = new States(new TreeMap<>(Map.of(0L, "0", 1L, "1")));

    private final Consumer<String> problem;
    private final String subject;
    private final States known;

    /**
     * @param subject who has the states, for messages
     * @param states of the point; a bit may have none
     */
    public NamedStates(PointRow row, String column, String subject, States states) {
        this(message -> row.error(column, message), subject, states);
    }

    /** Likewise, for names that stand in no row. */
    public NamedStates(Consumer<String> problem, String subject, States states) {
        this.problem = problem;
        this.subject = subject;
        this.known = states.isEmpty() ? BIT : states;
    }

    /** Empty where one of them is not there; then it is told. */
    public Optional<Set<Long>> read(String text) {
        Set<Long> states = new TreeSet<>();
        for (String part : text.split("\\|", -1)) {
            Optional<Long> state = one(part.strip());
            if (state.isEmpty()) {
                return Optional.empty();
            }
            if (!states.add(state.get())) {
                problem.accept("state '" + part.strip() + "' of " + subject + " stands here twice");
            }
        }
        return Optional.of(states);
    }

    /** The number of one state; empty where it is not there, and then it is told. */
    public Optional<Long> one(String text) {
        Optional<Long> state = state(text);
        if (state.isEmpty()) {
            problem.accept(subject + " has no state '" + text + "' (has " + list() + ")"
                    + NearestWord.hint(text, known.texts().values()));
        }
        return state;
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
