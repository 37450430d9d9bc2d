package burnerbridge.permits;

import java.util.List;

/**
 * A permit as it stands now.
 *
 * @param point its id
 * @param value what the point is now, with its quality where that is not good
 * @param slots that are held, the first to win first, in words; none where no bridge runs
 * @param held why the winner is not written yet; empty where nothing keeps it
 * @param asleep why the permit sleeps; empty while it does not
 * @param owed whether a demand stands in the controller, as far as the bridge knows
 * @param spent how many writes were counted so far
 */
public record PermitRow(
        String point, String value, List<String> slots, String held, String asleep, boolean owed, long spent) {
    public PermitRow {
        slots = List.copyOf(slots);
    }
}
