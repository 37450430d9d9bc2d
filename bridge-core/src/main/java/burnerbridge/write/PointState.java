package burnerbridge.write;

import burnerbridge.model.Registers;
import burnerbridge.write.ask.Decision;
import burnerbridge.write.ask.Question;
import burnerbridge.write.slot.Slots;
import java.math.BigDecimal;
import java.util.Objects;
import java.util.OptionalLong;
import org.jspecify.annotations.Nullable;

/** What the gate knows of one permitted point. It belongs to the gate's monitor. */
final class PointState {
    final Permitted permitted;
    final Slots slots = new Slots();

    /** What the bridge wrote last and found there; null where that is not known, so that the winner is written. */
    @Nullable
    Registers target;

    /** What its registers hold as far as is known; null until they were read, and after its controller was away. */
    @Nullable
    Registers expected;

    /** What was sent last, whatever became of it; null where nothing was since the gate began. */
    @Nullable
    Registers sent;

    /** When it was last sent, and at the start when the gate began. */
    long sentAt;

    /** The same before the write that was sent last. */
    long sentBefore;

    /** When the last write came to its end: what was read before that tells nothing. */
    long endedAt;

    @Nullable
    Ticket queued;

    @Nullable
    Ticket inFlight;

    /** Not before this tick; for what failed and is tried again. */
    long notBefore;

    /** Why the winner is not written; null where nothing keeps it. */
    Decision.@Nullable Refused held;

    /** What became of the last attempt to write the winner where that came to nothing, so that to ask for the same is to
     * try again; empty where it did not. */
    String failure = "";

    /** What watchers were told of last. */
    @Nullable
    PermitStatus told;

    /** Why people were told last that the winner waits; null where they were not. */
    @Nullable
    Question toldHeld;

    /** How often the winner was kept back on the line, where only a read or a connection shows why. */
    int keptBack;

    /** Whether something was written, or was about to be, that must be taken back when nobody asks any more. */
    boolean standing;

    /** The same before the ticket that is under way. */
    boolean stoodBefore;

    /** Why the permit sleeps; empty while it does not. */
    String asleep = "";

    /** What was read back after the last write; null where that is not known. */
    @Nullable
    BigDecimal readBack;

    /** Whether anything was sent since the gate began. */
    boolean everSent;

    /** Whether a silence action must be done yet. */
    boolean silenceOwed;

    /** How often the silence action was tried in vain. */
    int silenceTries;

    /** When a demand of before the start counts as silent; empty where there is none. */
    OptionalLong orphanUntil = OptionalLong.empty();

    /** How often what stands is written again, in nanoseconds; empty where it is not. Fixed once all permits are known. */
    OptionalLong refreshEvery = OptionalLong.empty();

    /** When what stands is written again, where its controller lets it go otherwise. */
    long refreshAt;

    /** When the beat is due; of a heartbeat alone. */
    long beatDue;

    /** What the next beat writes; of a heartbeat alone. */
    long beat;

    boolean beats;
    long beatsWritten;

    PointState(Permitted permitted, long now) {
        this.permitted = permitted;
        this.sentAt = now;
        this.sentBefore = now;
        this.endedAt = now;
        this.notBefore = now;
        this.refreshAt = now;
        this.beatDue = now;
    }

    /** The ticket that waits; asked for only where one does. */
    Ticket queued() {
        return Objects.requireNonNull(queued);
    }

    /** Nothing keeps the winner back any more, or it is another. */
    void isFree() {
        held = null;
        toldHeld = null;
        keptBack = 0;
        notBefore = endedAt;
    }

    void endSilence() {
        notBefore = silenceOwed ? endedAt : notBefore;
        silenceOwed = false;
        silenceTries = 0;
        if (queued != null && queued.cause() == Cause.SILENCE) {
            queued = null;
        }
    }

    boolean hasFailed() {
        return !failure.isEmpty();
    }

    boolean isBusy() {
        return queued != null || inFlight != null;
    }

    void forgetWhatItHolds() {
        target = null;
        expected = null;
    }
}
