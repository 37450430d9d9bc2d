package burnerbridge.config.binding;

import burnerbridge.config.binding.BindingStep.Kind;
import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/** The bindings of a site as they were read, and what {@code check --bind} would make of them. */
public final class BindingDraft {
    /** Of a site that has no BACnet side, or could not be read. */
    public static final BindingDraft NOTHING = new BindingDraft(BindingsFile.Content.NOTHING, Optional.empty());

    /** How many points that were added are named one by one. */
    private static final int MOST_NAMED = 20;

    private final BindingsFile.Content content;
    private final Optional<BindingPlanner> planner;

    public BindingDraft(BindingsFile.Content content, Optional<BindingPlanner> planner) {
        this.content = content;
        this.planner = planner;
    }

    /**
     * Writes the file where that changes it.
     *
     * @throws IOException where it cannot be written; it is then as it was
     */
    public Outcome write(Path folder, BindingChoices choices) throws IOException {
        if (planner.isEmpty()) {
            return new Outcome(List.of(), List.of());
        }
        BindingPlan plan = planner.get().plan(choices);
        if (!plan.refused().isEmpty()) {
            return new Outcome(List.of(), plan.refused());
        }
        if (!plan.rows().equals(content.rows())) {
            new BindingsText(content).write(folder, plan.rows());
        }
        return new Outcome(told(plan.steps()), List.of());
    }

    private static List<String> told(List<BindingStep> steps) {
        List<String> told = new ArrayList<>();
        long added = count(steps, Kind.ADDED);
        steps.stream()
                .filter(step -> !step.done().isEmpty() && (step.kind() != Kind.ADDED || added <= MOST_NAMED))
                .forEach(step -> told.add(step.done()));
        if (added > MOST_NAMED) {
            told.add(added + " points have an instance for good");
        }
        if (count(steps, Kind.PLACE_NOTED) > 0) {
            told.add("noted of " + count(steps, Kind.PLACE_NOTED) + " rows where their points are read from");
        }
        return told;
    }

    private static long count(List<BindingStep> steps, Kind kind) {
        return steps.stream().filter(step -> step.kind() == kind).count();
    }

    /**
     * What came of it.
     *
     * @param done sentences, one for each thing done
     * @param refused why choices could not be followed; nothing was then written
     */
    public record Outcome(List<String> done, List<String> refused) {}
}
