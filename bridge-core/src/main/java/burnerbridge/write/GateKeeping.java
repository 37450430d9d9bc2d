package burnerbridge.write;

import burnerbridge.model.BridgeClock;
import burnerbridge.model.Stamp;
import burnerbridge.site.PointId;
import burnerbridge.write.ask.Ask;
import burnerbridge.write.ask.Decision;
import burnerbridge.write.ask.Source;
import burnerbridge.write.audit.AuditEntry;
import burnerbridge.write.audit.AuditKind;
import burnerbridge.write.audit.AuditTrail;
import burnerbridge.write.memory.GateMemory;
import burnerbridge.write.memory.PointMemory;
import burnerbridge.write.memory.Ratchet;
import java.io.IOException;
import java.util.ArrayDeque;
import java.util.Collection;
import java.util.HashMap;
import java.util.Map;
import java.util.Optional;
import java.util.Queue;
import java.util.concurrent.ConcurrentHashMap;
import java.util.function.BooleanSupplier;
import org.jspecify.annotations.Nullable;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * What the gate keeps: the audit, and what it must know again after a restart. What is told inside the gate's monitor only
 * waits in a queue; whatever touches the disk is called outside of it.
 */
final class GateKeeping {
    private static final Logger LOG = LoggerFactory.getLogger(GateKeeping.class);
    /** More wait only while the disk does not keep up; what comes then is counted. */
    private static final int MOST_WAITING = 10_000;

    private final AuditTrail audit;
    private final GateMemory memory;
    private final Ratchet ratchet;
    private final BridgeClock clock;
    private final Queue<AuditEntry> waiting = new ArrayDeque<>();
    /** Heartbeats whose begin is recorded, with the code of what went wrong last; none where nothing does. */
    private final Map<PointId, String> beating = new HashMap<>();

    private final Map<PointId, Long> spent = new ConcurrentHashMap<>();
    /** Held while something is put on the disk, and never while the gate's monitor is waited for by its holder. */
    private final Object disk = new Object();

    private long leftOut;
    private volatile String trouble = "";

    /** @param permitted all points that may be written */
    GateKeeping(
            AuditTrail audit, GateMemory memory, Ratchet ratchet, Collection<PointId> permitted, BridgeClock clock) {
        this.audit = audit;
        this.memory = memory;
        this.ratchet = ratchet;
        this.clock = clock;
        permitted.forEach(point -> spent.put(point, memory.of(point).spent()));
    }

    /** As it was when it was last put on the disk, which is not waited for. */
    long spent(PointId point) {
        return spent.getOrDefault(point, 0L);
    }

    /** Whether a demand stood when the bridge ended. For the start. */
    boolean isStanding(PointId point) {
        return memory.of(point).owed();
    }

    /** Why a permit slept when the bridge ended. For the start. */
    Optional<String> asleep(PointId point) {
        return memory.of(point).asleep().map(PointMemory.Asleep::reason);
    }

    /** Why no record can be kept now; empty where it can. */
    Optional<String> trouble() {
        return trouble.isEmpty() ? Optional.empty() : Optional.of(trouble);
    }

    void decided(Ask ask, Decision decision, String present) {
        if (decision instanceof Decision.Refused refused) {
            refused(
                    ask.point(),
                    ask.source(),
                    ask.wanted().text(),
                    refused.question().code(),
                    refused.sentence(),
                    present);
            return;
        }
        Decision.Standing standing = ((Decision.Admitted) decision).standing();
        if (standing != Decision.Standing.RENEWED) {
            later(AuditEntry.of(AuditKind.ADMITTED)
                    .decided(word(standing), "slot " + ask.slot())
                    .from(ask.source().text())
                    .at(ask.point())
                    .previous(present)
                    .asked(ask.wanted().text()));
        }
    }

    void refused(PointId point, Source source, String wanted, String code, String sentence, String present) {
        later(AuditEntry.of(AuditKind.REFUSED)
                .decided(code, sentence)
                .from(source.text())
                .at(point)
                .previous(present)
                .asked(wanted));
    }

    private static String word(Decision.Standing standing) {
        return switch (standing) {
            case TO_BE_WRITTEN -> "to-be-written";
            case RENEWED -> "renewed";
            case BEHIND -> "behind";
            case GIVEN_UP -> "given-up";
        };
    }

    void withheld(Ticket ticket, Decision.Refused refusal) {
        later(about(AuditKind.REFUSED, ticket).decided(refusal.question().code(), refusal.sentence()));
    }

    void told(WriteEvent event) {
        AuditKind kind = switch (event.kind()) {
            case HELD -> AuditKind.HELD;
            case LEASE_ENDED -> AuditKind.LEASE;
            case SILENCE -> AuditKind.SILENCE;
            case ASLEEP -> AuditKind.ANOTHER_WRITER;
            // These are recorded by themselves, when they come.
            case REFUSED, WRITTEN, FAILED -> AuditKind.OUTCOME;
        };
        if (kind != AuditKind.OUTCOME) {
            later(AuditEntry.of(kind).from("bridge").at(event.point()).said(event.sentence()));
        }
    }

    void beatsEnded(PointId point, long written) {
        synchronized (waiting) {
            if (beating.remove(point) == null) {
                return;
            }
        }
        later(AuditEntry.of(AuditKind.OUTCOME)
                .from("bridge heartbeat")
                .at(point)
                .decided("ended", "the heartbeat ends after " + written + " beats"));
    }

    private void later(AuditEntry entry) {
        synchronized (waiting) {
            if (waiting.size() >= MOST_WAITING) {
                leftOut++;
            } else {
                waiting.add(entry);
            }
        }
    }

    /** Puts on the disk what waits, in the order in which it was told. */
    void step(long now) {
        synchronized (disk) {
            try {
                flush();
                audit.step(now);
                // That nothing had to be recorded just now does not show that anything could be.
                if (audit.trouble().isEmpty()) {
                    wellAgain();
                }
            } catch (IOException e) {
                inTrouble(e);
            }
        }
    }

    private void flush() throws IOException {
        for (AuditEntry entry = next(); entry != null; entry = next()) {
            if (entry.kind() == AuditKind.REFUSED) {
                audit.recordRefusal(entry);
            } else {
                audit.record(entry);
            }
            synchronized (waiting) {
                waiting.remove();
            }
        }
        long lost;
        synchronized (waiting) {
            lost = leftOut;
        }
        if (lost > 0) {
            audit.record(AuditEntry.of(AuditKind.ROOM)
                    .from("bridge")
                    .said(lost + " records of asks were left out, since more came than could be kept"));
            synchronized (waiting) {
                leftOut -= lost;
            }
        }
    }

    private @Nullable AuditEntry next() {
        synchronized (waiting) {
            return waiting.peek();
        }
    }

    private void inTrouble(IOException e) {
        String why = e.getMessage() == null ? e.toString() : e.getMessage();
        if (trouble.isEmpty()) {
            LOG.error(
                    "write gate: no record can be kept, so that nothing is written but what silence asks for: {}", why);
        }
        trouble = why;
    }

    private void wellAgain() {
        if (!trouble.isEmpty()) {
            LOG.info("write gate: records can be kept again");
            trouble = "";
        }
    }

    /**
     * Everything that must be on the disk before a write may leave: that a demand stands, the debit, the intent. A silence
     * action goes on without where the disk takes nothing any more.
     *
     * @throws IOException where it could not be kept; nothing must be sent then
     */
    void intend(Ticket ticket, byte[] bytes) throws IOException {
        synchronized (disk) {
            try {
                keep(ticket, bytes);
            } catch (IOException e) {
                inTrouble(e);
                if (ticket.cause() != Cause.SILENCE) {
                    throw e;
                }
                keepFromTheReserve(ticket, bytes);
            }
        }
    }

    private void keep(Ticket ticket, byte[] bytes) throws IOException {
        flush();
        debit(ticket);
        if (ticket.cause() == Cause.HEARTBEAT) {
            firstBeat(ticket, bytes);
        } else {
            audit.recordForced(intent(ticket, bytes));
        }
    }

    /** That a demand stands and what it costs are one change, and so one wait for the disk. */
    private void debit(Ticket ticket) throws IOException {
        PointId point = ticket.permitted().id();
        boolean wears = !ticket.permitted().permit().storage().isVolatile();
        PointMemory now = memory.change(point, before -> {
            PointMemory after = ticket.isDemand() ? before.owing(true) : before;
            return wears ? after.debited() : after;
        });
        spent.put(point, now.spent());
    }

    /** One record for all beats until they end: to force one for each would wear out the box's own memory. */
    private void firstBeat(Ticket ticket, byte[] bytes) throws IOException {
        boolean first;
        synchronized (waiting) {
            first = !beating.containsKey(ticket.permitted().id());
        }
        if (first) {
            audit.recordForced(intent(ticket, bytes)
                    .said("the heartbeat begins; its beats are counted, and not recorded one by one"));
            synchronized (waiting) {
                beating.put(ticket.permitted().id(), "");
            }
        }
    }

    private AuditEntry intent(Ticket ticket, byte[] bytes) {
        AuditEntry entry = about(AuditKind.INTENT, ticket)
                .bytes(bytes)
                .approval(ticket.hash())
                .remembering(memory.generation(), ratchet.generation());
        return ticket.cause() == Cause.REFRESH
                ? entry.said("it stands, and is written again before its controller lets it go")
                : entry;
    }

    private static AuditEntry about(AuditKind kind, Ticket ticket) {
        return AuditEntry.of(kind)
                .from(ticket.source().text())
                .at(ticket.permitted().id())
                .asked(ticket.value().value().toPlainString());
    }

    private void keepFromTheReserve(Ticket ticket, byte[] bytes) {
        try {
            debit(ticket);
        } catch (IOException e) {
            LOG.error(
                    "write gate: {}: a write for silence cannot be counted: {}",
                    ticket.permitted().id(),
                    e.getMessage());
        }
        try {
            audit.recordAtAnyCost(intent(ticket, bytes));
        } catch (IOException e) {
            LOG.error(
                    "write gate: {} is written for silence without a record, which cannot be kept: {}",
                    ticket.permitted().id(),
                    e.getMessage());
        }
    }

    /** What became of a ticket whose intent was recorded. */
    void ended(Ticket ticket, Result result) {
        if (ticket.cause() == Cause.HEARTBEAT && !isNewsOfBeat(ticket, result)) {
            return;
        }
        AuditEntry entry = about(AuditKind.OUTCOME, ticket)
                .decided(result.code(), result.sentence(ticket.value().value().toPlainString()));
        if (result instanceof Result.Written written) {
            entry = entry.readBack(written.value().toPlainString());
        } else if (result instanceof Result.NotTaken notTaken) {
            entry = entry.readBack(notTaken.holds());
        }
        later(entry);
    }

    /** What every beat comes to is told once. */
    private boolean isNewsOfBeat(Ticket ticket, Result result) {
        boolean written = result instanceof Result.Written;
        synchronized (waiting) {
            String before = beating.replace(ticket.permitted().id(), written ? "" : result.code());
            return !written && !result.code().equals(before);
        }
    }

    /** @param stands asked right before the disk is written, since a new demand may have come meanwhile */
    void noLongerStanding(PointId point, BooleanSupplier stands) {
        synchronized (disk) {
            try {
                if (!stands.getAsBoolean()) {
                    memory.change(point, before -> before.owing(false));
                }
            } catch (IOException e) {
                inTrouble(e);
            }
        }
    }

    void fallAsleep(PointId point, String why) {
        synchronized (disk) {
            try {
                Stamp now = clock.now();
                memory.change(point, before -> before.asleep(new PointMemory.Asleep(why, now.wall(), now.believed())));
            } catch (IOException e) {
                inTrouble(e);
            }
        }
    }
}
