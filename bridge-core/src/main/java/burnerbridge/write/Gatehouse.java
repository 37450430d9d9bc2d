package burnerbridge.write;

import burnerbridge.health.HealthSource;
import burnerbridge.health.Trouble;
import burnerbridge.line.WritableLine;
import burnerbridge.line.WriteTemplate;
import burnerbridge.measure.MetricSink;
import burnerbridge.measure.MetricSource;
import burnerbridge.model.BridgeClock;
import burnerbridge.poll.LineErrand;
import burnerbridge.site.Name;
import burnerbridge.site.PointId;
import burnerbridge.site.Site;
import burnerbridge.site.UnitId;
import burnerbridge.site.guard.Guard;
import burnerbridge.table.ValueTable;
import burnerbridge.write.approval.Approval;
import burnerbridge.write.approval.ApprovalState;
import burnerbridge.write.ask.Ask;
import burnerbridge.write.ask.Decision;
import burnerbridge.write.ask.Fate;
import burnerbridge.write.ask.Source;
import burnerbridge.write.audit.AuditHead;
import burnerbridge.write.audit.AuditKind;
import burnerbridge.write.store.Disk;
import java.io.IOException;
import java.time.Duration;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Consumer;
import java.util.function.LongConsumer;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * The gate of a site with all that belongs to it, as the composition root uses it. Safe for any number of threads.
 */
public final class Gatehouse implements AutoCloseable, HealthSource, MetricSource {
    private static final Logger LOG = LoggerFactory.getLogger(Gatehouse.class);
    private static final long REMEMBER_EVERY = Duration.ofSeconds(5).toNanos();
    private static final long LOOK_AGAIN = Duration.ofMillis(20).toNanos();

    private final ApprovalDesk desk;
    private final PermitBook book;
    private final GateKeeping keeping;
    private final WriteGate gate;
    private final ValueTable table;
    private final BridgeClock clock;
    /** Held by a person's act, so that the end of one does not open what another has closed. */
    private final Object acting = new Object();

    private boolean rememberingFailed;
    private long rememberAt;

    private Gatehouse(
            ApprovalDesk desk,
            PermitBook book,
            GateKeeping keeping,
            WriteGate gate,
            ValueTable table,
            BridgeClock clock) {
        this.desk = desk;
        this.book = book;
        this.keeping = keeping;
        this.gate = gate;
        this.table = table;
        this.clock = clock;
        this.rememberAt = clock.ticks();
    }

    /**
     * Opens the gate of a site as far as a person has approved it.
     *
     * @param listener told what became of permitted points; it must not wait
     * @throws IOException where something that was kept cannot be read, is damaged or gone: then nothing may be written
     */
    public static Gatehouse open(
            Site site, Disk disk, ValueTable table, BridgeClock clock, WriteEvent.Listener listener)
            throws IOException {
        ApprovalDesk desk = ApprovalDesk.open(site, disk, table, clock);
        ApprovalState state = desk.state();
        PermitBook book = new PermitBook(site, (unit, guard) -> desk.known(unit, guard, state));
        GateKeeping keeping = desk.keeping();
        Authority authority = desk.authority(state);
        WriteGate gate = new WriteGate(book, authority, keeping, desk.identities(), table, clock, listener);
        if (!book.isEmpty()) {
            begin(site, desk, authority);
        }
        tellLeftBehind(desk);
        return new Gatehouse(desk, book, keeping, gate, table, clock);
    }

    private static void tellLeftBehind(ApprovalDesk desk) {
        List<String> points = desk.leftBehind();
        if (points.isEmpty()) {
            return;
        }
        String sentence = "what a demand left in " + String.join(", ", points)
                + " stays there: it stood when the bridge ended, and nothing permits to take it back any more";
        LOG.warn("write gate: {}", sentence);
        try {
            desk.record(AuditKind.LAPSED, sentence);
        } catch (IOException e) {
            LOG.warn("write gate: that cannot be recorded: {}", e.getMessage());
        }
    }

    /** A disk that takes nothing just now keeps no write for silence from being made. */
    private static void begin(Site site, ApprovalDesk desk, Authority authority) {
        if (authority.isInForce()) {
            LOG.info("write permits: {} approved", site.permits().size());
        } else {
            LOG.warn("write permits: nothing is written: {}", authority.why());
        }
        try {
            desk.record(
                    authority.isInForce() ? AuditKind.STARTED : AuditKind.LAPSED,
                    authority.isInForce() ? "the gate is open for what was approved" : authority.why());
        } catch (IOException e) {
            LOG.warn("write gate: its start cannot be recorded: {}", e.getMessage());
        }
    }

    /** All that may ever be sent over a line; none where it is only read. */
    public List<WriteTemplate> templates(Name line) {
        return book.templates(line);
    }

    /** What of the units of a line can never be written. */
    public Map<UnitId, Guard> guards(Name line) {
        return book.guards(line);
    }

    /**
     * Makes what writes over a line.
     *
     * @param wake lets the line's thread look for work at once; for any thread
     */
    public LineErrand writer(Name line, WritableLine writable, Runnable wake) {
        gate.whenAsked(line, wake);
        return new LineWriter(
                line, gate, keeping, writable, new IdentityCheck(gate, desk.identities(), table, clock), clock);
    }

    /** Decides on an ask, at once and without I/O. */
    public Decision ask(Ask ask) {
        return gate.ask(ask);
    }

    /**
     * Decides on an ask as {@link #ask(Ask)} does.
     *
     * @param follower told once what became of it where it is admitted
     */
    public Decision ask(Ask ask, Fate.Follower follower) {
        return gate.ask(ask, follower);
    }

    /**
     * Records and tells that something was refused before the gate could be asked, as what the gate refuses is.
     *
     * @param wanted what was asked for; empty where that could not be read
     * @param code as a question's, or a word of whoever refused it
     */
    public void refused(PointId point, Source source, String wanted, String code, String sentence) {
        gate.refused(point, source, wanted, code, sentence);
    }

    /** @param watcher told when how a permit stands is another than before; it must not wait */
    public void watch(PermitStatus.Watcher watcher) {
        gate.watch(watcher);
    }

    /** How one permit stands; empty where there is none. */
    public Optional<PermitStatus> status(PointId point) {
        return gate.status(point);
    }

    /** Does what time brings; the tick at which it is next due. */
    public long step(long now) {
        if (now - rememberAt >= 0) {
            remember();
            rememberAt = now + REMEMBER_EVERY;
        }
        return gate.step(now);
    }

    private void remember() {
        try {
            desk.remember();
            rememberingFailed = false;
        } catch (IOException e) {
            if (!rememberingFailed) {
                LOG.warn("write gate: what can never be written cannot be kept: {}", e.getMessage());
            }
            rememberingFailed = true;
        }
    }

    /** Whether a person has approved what the bridge would write. */
    public boolean isApproved() {
        return gate.isApproved();
    }

    public String whyNotApproved() {
        return gate.whyNotApproved();
    }

    /** Whether there is any permit. */
    public boolean isEmpty() {
        return book.isEmpty();
    }

    public List<PermitStatus> statuses() {
        return gate.statuses();
    }

    /** What is wrong with its permits right now; nothing where there are none. */
    @Override
    public void tell(Consumer<Trouble> troubles) {
        if (!book.isEmpty()) {
            Optional<String> notApproved = isApproved() ? Optional.empty() : Optional.of(whyNotApproved());
            GateTroubles.tell(gate.statuses(), notApproved, keeping.trouble(), troubles);
        }
    }

    /** What it decided and wrote; nothing where there are no permits. */
    @Override
    public void measure(MetricSink sink) {
        if (!book.isEmpty()) {
            gate.counts().measure(sink);
        }
    }

    public ApprovalDesk desk() {
        return desk;
    }

    /** The newest record of the audit, to be kept elsewhere. */
    public AuditHead head() {
        return desk.head();
    }

    /**
     * Takes back what stands, approves what there is now, and opens the gate for it.
     *
     * @param hash of what the person saw
     * @param pause lets at most so many nanoseconds pass
     * @return false where what stands could not be taken back in time; nothing was changed then, and asks are taken again.
     *     What could not be since nothing is approved, or another controller is there, is once it is approved
     * @throws ApprovalDesk.CannotApproveException as the desk does
     * @throws IOException where it could not be kept
     */
    public boolean approve(String by, Optional<String> hash, Duration patience, LongConsumer pause)
            throws ApprovalDesk.CannotApproveException, IOException {
        synchronized (acting) {
            if (!closeAndAwait("what may be written is approved anew just now", patience, pause)) {
                gate.reopen();
                return false;
            }
            try {
                Approval approval = desk.approve(by, hash);
                gate.open(desk.authority());
                LOG.info("write permits: approved by {}", approval.by());
                return true;
            } finally {
                gate.reopen();
            }
        }
    }

    /**
     * Takes back what stands, and the approval with it.
     *
     * @return whether what stands was taken back in time; the approval is withdrawn either way
     * @throws IOException where it could not be kept
     */
    public boolean withdraw(String by, Duration patience, LongConsumer pause) throws IOException {
        synchronized (acting) {
            boolean quiet = closeAndAwait("the approval is being withdrawn", patience, pause) && !gate.owesSilence();
            try {
                desk.withdraw(by);
                LOG.info("write permits: withdrawn by {}", by);
            } finally {
                gate.shut(desk.authority());
            }
            return quiet;
        }
    }

    private boolean closeAndAwait(String why, Duration patience, LongConsumer pause) {
        gate.close(why);
        return awaitQuiet(patience, pause);
    }

    private boolean awaitQuiet(Duration patience, LongConsumer pause) {
        long end = clock.ticks() + patience.toNanos();
        while (!gate.isQuiet() && end - clock.ticks() > 0) {
            pause.accept(LOOK_AGAIN);
        }
        return gate.isQuiet();
    }

    /**
     * Takes back what stands, while the lines still run.
     *
     * @return whether it was taken back in time; what was not is once the bridge runs again
     */
    public boolean end(Duration patience, LongConsumer pause) {
        gate.end("the bridge ends");
        boolean quiet = awaitQuiet(patience, pause) && !gate.owesSilence();
        // So that what was taken back is known to be, and is not once more after the next start.
        gate.step(clock.ticks());
        return quiet;
    }

    /** Forces what waits to be kept. */
    @Override
    public void close() {
        keeping.step(clock.ticks());
        try {
            if (!book.isEmpty()) {
                desk.record(AuditKind.ENDED, "the gate is closed");
            }
            desk.close();
        } catch (IOException e) {
            LOG.warn("write gate: its end cannot be recorded: {}", e.getMessage());
        }
    }
}
