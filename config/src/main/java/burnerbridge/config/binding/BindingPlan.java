package burnerbridge.config.binding;

import burnerbridge.config.problem.Problems.Place;
import java.util.List;

/**
 * What {@code check --bind} would make of the bindings.
 *
 * @param rows all rows as they would be; those of the file first, in its order
 * @param doubts what only a person can decide; left as it is
 * @param refused choices that cannot be followed
 */
record BindingPlan(List<BindingRow> rows, List<BindingStep> steps, List<Doubt> doubts, List<String> refused) {

    /** A row that may have been renamed. */
    record Doubt(Place place, String question) {}

    BindingPlan {
        rows = List.copyOf(rows);
        steps = List.copyOf(steps);
        doubts = List.copyOf(doubts);
        refused = List.copyOf(refused);
    }
}
