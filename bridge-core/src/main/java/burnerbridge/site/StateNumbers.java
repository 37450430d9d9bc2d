package burnerbridge.site;

import java.util.ArrayList;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalInt;

/**
 * Which multi-state number each state of a point has. A number, once given, stays with its state: texts may
 * change, states may come, go and change places in the point list, and none of that moves another state.
 *
 * @param byState the controller's number of a state, and its multi-state number from 1 (ASHRAE 135, 12.18,
 *     from memory), in the order in which they were given; no two are equal
 */
public record StateNumbers(Map<Long, Integer> byState) {
    public static final StateNumbers NONE = new StateNumbers(Map.of());

    /** The highest multi-state number, since every number up to it needs a text. */
    public static final int HIGHEST = 2000;

    public StateNumbers {
        byState = Collections.unmodifiableMap(new LinkedHashMap<>(byState));
        if (byState.values().stream().anyMatch(number -> number < 1 || number > HIGHEST)) {
            throw new IllegalArgumentException("a multi-state number is 1 to " + HIGHEST + " (was " + byState + ")");
        }
        if (byState.values().stream().distinct().count() < byState.size()) {
            throw new IllegalArgumentException("two states have one multi-state number (was " + byState + ")");
        }
    }

    /** Numbers from 1 in the order of a list of states; the start of every numbering. */
    public static StateNumbers inOrderOf(States states) {
        return NONE.with(states);
    }

    public boolean isEmpty() {
        return byState.isEmpty();
    }

    /** The multi-state number of a state; empty for one that was given none. */
    public OptionalInt of(long state) {
        Integer number = byState.get(state);
        return number == null ? OptionalInt.empty() : OptionalInt.of(number);
    }

    /** The highest number given, Number_Of_States of the object; 0 where none was. */
    public int count() {
        return byState.values().stream().mapToInt(number -> number).max().orElse(0);
    }

    /** The states of a list that have no number yet, in its order. */
    public List<Long> missing(States states) {
        return states.texts().keySet().stream()
                .filter(state -> !byState.containsKey(state))
                .toList();
    }

    /** The same, and for each missing state of a list the next number, as far as there are any. */
    public StateNumbers with(States states) {
        Map<Long, Integer> all = new LinkedHashMap<>(byState);
        int next = count() + 1;
        for (long state : missing(states)) {
            if (next <= HIGHEST) {
                all.put(state, next++);
            }
        }
        return new StateNumbers(all);
    }

    /** A text for every number from 1 to {@link #count}: what the list says, or that it is not used. */
    public List<String> texts(States states) {
        List<String> texts = new ArrayList<>(Collections.nCopies(count(), "not used"));
        byState.forEach(
                (state, number) -> texts.set(number - 1, states.text(state).orElse("not used (" + state + ")")));
        return List.copyOf(texts);
    }
}
