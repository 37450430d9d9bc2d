package burnerbridge.write;

import burnerbridge.site.PointId;
import burnerbridge.write.slot.Slot;
import java.math.BigDecimal;
import java.util.List;
import java.util.OptionalLong;

/**
 * How a permit stands now.
 *
 * @param slots that are held, the first to win first
 * @param held why the winner is not written yet; empty where nothing keeps it
 * @param asleep why the permit sleeps; empty while it does not
 * @param silenceOwed whether its value for silence must be written yet
 * @param spent how many writes were counted so far; 0 where the memory takes any number
 */
public record PermitStatus(
        PointId point, List<Held> slots, String held, String asleep, boolean silenceOwed, long spent) {

    /**
     * A slot that is held.
     *
     * @param value as its registers would have it
     * @param left nanoseconds until its lease ends; empty: it holds until it is given up
     */
    public record Held(int slot, BigDecimal value, String source, OptionalLong left) {
        private static Held of(Slot slot, long now) {
            return new Held(
                    slot.number(),
                    slot.value().value(),
                    slot.source().text(),
                    slot.until().isPresent()
                            ? OptionalLong.of(Math.max(0, slot.until().getAsLong() - now))
                            : OptionalLong.empty());
        }
    }

    public PermitStatus {
        slots = List.copyOf(slots);
    }

    static PermitStatus of(PointState state, long spent, long now) {
        return new PermitStatus(
                state.permitted.id(),
                state.slots.all().stream().map(slot -> Held.of(slot, now)).toList(),
                state.held == null ? "" : state.held.sentence(),
                state.asleep,
                state.silenceOwed,
                spent);
    }
}
