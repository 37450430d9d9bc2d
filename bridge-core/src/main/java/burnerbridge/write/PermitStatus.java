package burnerbridge.write;

import burnerbridge.site.PointId;
import burnerbridge.site.permit.Purpose;
import burnerbridge.write.ask.Source;
import burnerbridge.write.slot.Slot;
import java.math.BigDecimal;
import java.time.Duration;
import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;

/**
 * How a permit stands now.
 *
 * @param slots that are held, the first to win first
 * @param held why the winner is not written yet; empty where nothing keeps it
 * @param failed what became of the last write of the winner where that was not what it should; empty where it was
 * @param asleep why the permit sleeps; empty while it does not
 * @param silenceOwed whether its value for silence must be written yet
 * @param readBack what its registers held after the last write; empty where that is not known
 * @param untilNextWrite nanoseconds until a write that changes its value may leave; 0 where it may now
 * @param spent how many writes were counted so far; 0 where the memory takes any number
 * @param budget how many writes its memory may take; empty where it takes any number
 */
public record PermitStatus(
        PointId point,
        List<Held> slots,
        String held,
        String failed,
        String asleep,
        boolean silenceOwed,
        Optional<BigDecimal> readBack,
        long untilNextWrite,
        long spent,
        OptionalLong budget) {

    /**
     * A slot that is held.
     *
     * @param value as its registers would have it
     * @param left nanoseconds until its lease ends; empty: it holds until it is given up
     */
    public record Held(int slot, BigDecimal value, Source source, OptionalLong left) {
        private static Held of(Slot slot, long now) {
            return new Held(
                    slot.number(),
                    slot.value().value(),
                    slot.source(),
                    slot.until().isPresent()
                            ? OptionalLong.of(Math.max(0, slot.until().getAsLong() - now))
                            : OptionalLong.empty());
        }
    }

    /** Told that what a permit's slots hold, or why its winner is not written, is another than before. */
    public interface Watcher {
        /** On any thread, which must not wait, and must not ask the gate. */
        void changed(PointId point);
    }

    public PermitStatus {
        slots = List.copyOf(slots);
    }

    /** The slot that wins; empty where nobody asks. */
    public Optional<Held> winner() {
        return slots.stream().findFirst();
    }

    static PermitStatus of(PointState state, long spent, long now) {
        Duration interval =
                state.permitted.permit().asked().map(Purpose.Asked::interval).orElse(Duration.ZERO);
        return new PermitStatus(
                state.permitted.id(),
                state.slots.all().stream().map(slot -> Held.of(slot, now)).toList(),
                state.held == null ? "" : state.held.sentence(),
                state.failure,
                state.asleep,
                state.silenceOwed,
                Optional.ofNullable(state.readBack),
                Math.max(0, interval.toNanos() - (now - state.sentAt)),
                spent,
                state.permitted.permit().storage().lifetimeWrites());
    }

    /** Whether a watcher need not be told: only time has passed, or a lease begun anew. */
    boolean looksLike(PermitStatus other) {
        return withoutTime().equals(other.withoutTime());
    }

    private PermitStatus withoutTime() {
        List<Held> timeless = slots.stream()
                .map(slot -> new Held(slot.slot(), slot.value(), slot.source(), OptionalLong.empty()))
                .toList();
        return new PermitStatus(point, timeless, heldKind(), failed, asleep, silenceOwed, readBack, 0, spent, budget);
    }

    /** Seconds that run down inside of a sentence are no news. */
    private String heldKind() {
        return held.isEmpty() ? "" : "held";
    }
}
