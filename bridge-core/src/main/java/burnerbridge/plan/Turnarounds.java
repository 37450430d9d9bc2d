package burnerbridge.plan;

import burnerbridge.site.ControllerDefinition;
import burnerbridge.site.Name;
import java.time.Duration;
import java.util.HashMap;
import java.util.Map;

/**
 * How long each controller thinks before it answers.
 *
 * @param byController those that are known
 * @param otherwise of any other
 */
public record Turnarounds(Map<Name, Duration> byController, Duration otherwise) {
    /** Before anything was measured. */
    public static final Turnarounds ASSUMED = all(Duration.ofMillis(5));

    public Turnarounds {
        byController = Map.copyOf(byController);
        byController.values().forEach(Turnarounds::require);
        require(otherwise);
    }

    private static void require(Duration turnaround) {
        if (turnaround.isNegative()) {
            throw new IllegalArgumentException("a turnaround is not negative (was " + turnaround + ")");
        }
    }

    /** The same for every controller. */
    public static Turnarounds all(Duration turnaround) {
        return new Turnarounds(Map.of(), turnaround);
    }

    public Duration of(ControllerDefinition controller) {
        return byController.getOrDefault(controller.name(), otherwise);
    }

    /** The same with that of one controller. */
    public Turnarounds with(Name controller, Duration turnaround) {
        Map<Name, Duration> changed = new HashMap<>(byController);
        changed.put(controller, turnaround);
        return new Turnarounds(changed, otherwise);
    }
}
