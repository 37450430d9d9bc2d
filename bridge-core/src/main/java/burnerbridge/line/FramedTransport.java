package burnerbridge.line;

import burnerbridge.line.diagnosis.Census;
import burnerbridge.line.diagnosis.Finding;
import burnerbridge.line.diagnosis.LineDiagnosis;
import burnerbridge.line.frame.Framing;
import burnerbridge.line.frame.Pdu;
import burnerbridge.line.frame.WriteRequest;
import burnerbridge.line.wire.Deadline;
import burnerbridge.line.wire.Reception;
import burnerbridge.line.wire.Wire;
import burnerbridge.model.BridgeClock;
import burnerbridge.model.Registers;
import burnerbridge.model.Stamp;
import burnerbridge.site.LineDefinition;
import burnerbridge.site.UnitId;
import java.io.IOException;
import java.time.Duration;
import java.util.List;
import java.util.Optional;
import java.util.function.Supplier;
import org.jspecify.annotations.Nullable;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * Strict transactions over any wire in any framing. A request has an absolute deadline, and its reply must
 * match it in everything that the framing and the data unit have. After a time-out or any doubt the wire
 * is drained or opened anew, so that a late reply does not answer the next question; what may
 * still come where replies do not say what they answer is told in {@link Doubts}.
 */
final class FramedTransport implements LineTransport {
    /** Tells the raw bytes of every transaction that failed. */
    private static final Logger FRAMES = LoggerFactory.getLogger("burnerbridge.line.frames");

    private final LineDefinition line;
    private final LineCounters counters = new LineCounters();
    private final Connection connection;
    private final Framing framing;
    private final Doubts doubts;
    private final Turns turns;
    private final BridgeClock clock;
    private final LastCheck check;
    private final Bystander bystander;
    private final LineDiagnosis diagnosis;

    /** The wire ended before a byte of a reply came, as it does when a peer drops idle connections. */
    private static final class Ended extends Exception {
        private static final long serialVersionUID = 1L;
        private final transient Stamp askedAt;

        Ended(IOException cause, Stamp askedAt) {
            super(wordsOf(cause), cause);
            this.askedAt = askedAt;
        }
    }

    FramedTransport(
            LineDefinition line,
            Supplier<Wire> wires,
            Framing framing,
            LastCheck check,
            Doubts doubts,
            Turns turns,
            BridgeClock clock) {
        this.line = line;
        this.connection = new Connection(wires);
        this.framing = framing;
        this.doubts = doubts;
        this.turns = turns;
        this.clock = clock;
        this.check = check;
        this.bystander = new Bystander(line, framing, counters, clock, FRAMES);
        this.diagnosis = new LineDiagnosis(line, () -> new Census(counters.ofLine(), counters.ofUnits()), clock);
    }

    @Override
    public Outcome read(ReadRequest request) {
        Outcome outcome = transact(request, Pdu.encode(request));
        diagnosis.after(outcome);
        return outcome;
    }

    @Override
    public long readyAt(ReadRequest request, long now) {
        return turns.readyAt(request, now);
    }

    long readyAt(WriteRequest request, long now) {
        return turns.readyAt(request, now);
    }

    /**
     * Sends a write once over the wire that is open. What it may be is decided at {@link LastCheck}, on the bytes.
     *
     * @throws IllegalStateException where it may not leave; nothing was sent
     */
    WriteOutcome write(WriteRequest request) {
        turns.await(request, connection::isClosed);
        if (connection.kept() == null) {
            return new WriteOutcome.NotSent("there is no connection to " + line.endpoint());
        }
        Wire open = idleWire(request);
        if (open == null) {
            return new WriteOutcome.NotSent("the connection to " + line.endpoint()
                    + " has ended, or brought what nobody asked for, and was dropped");
        }
        doubts.begin();
        Outcome outcome = sendOnce(open, request);
        // Of what is asked once there is nothing to ask again.
        WriteOutcome written = written(doubts.believed(request, outcome).orElse(outcome));
        diagnosis.after(outcome);
        return written;
    }

    /** Nobody knows how much of it left when the wire ended. */
    private Outcome sendOnce(Wire open, WriteRequest request) {
        try {
            return exchange(open, request, request.pdu());
        } catch (Ended e) {
            connection.drop();
            return ended(request, e);
        }
    }

    private static WriteOutcome written(Outcome outcome) {
        if (outcome instanceof Outcome.Answered answered) {
            return new WriteOutcome.Accepted(answered.askedAt());
        }
        if (outcome instanceof Outcome.Refused refused) {
            return new WriteOutcome.Refused(refused.code(), refused.askedAt());
        }
        if (outcome instanceof Outcome.Broken broken) {
            return new WriteOutcome.Unknown(broken.what(), broken.askedAt());
        }
        return new WriteOutcome.Unknown("no reply in time", ((Outcome.Silent) outcome).askedAt());
    }

    /** Sends any data unit that reads; what it may be is decided at {@link LastCheck}, on the bytes. */
    Outcome transact(ReadRequest request, byte[] pdu) {
        doubts.begin();
        Optional<Outcome> outcome = doubts.believed(request, ask(request, pdu));
        while (outcome.isEmpty()) {
            outcome = doubts.believed(request, ask(request, pdu));
        }
        return outcome.get();
    }

    /**
     * A wire that turns out to have ended meanwhile is opened again, once, and asked anew; but not with what is
     * asked once only, since the peer may have taken the request before it ended.
     */
    private Outcome ask(ReadRequest request, byte[] pdu) {
        turns.await(request, connection::isClosed);
        Wire kept = idleWire(request);
        try {
            return exchange(kept == null ? connect() : kept, request, pdu);
        } catch (Ended e) {
            connection.drop();
            return kept == null || request.terms().once() ? ended(request, e) : ask(request, pdu);
        } catch (IOException e) {
            connection.drop();
            return new Outcome.NotConnected(line.endpoint() + ": " + wordsOf(e));
        }
    }

    private static String wordsOf(IOException e) {
        return e.getMessage() == null ? e.toString() : e.getMessage();
    }

    private Outcome ended(Request request, Ended e) {
        String what = "no reply from " + line.endpoint() + ": " + e.getMessage();
        Outcome ended = new Outcome.Broken(Fault.ENDED, what, e.askedAt);
        counters.count(request, ended);
        return ended;
    }

    /** The wire that was kept, with nothing in it that nobody asked for. */
    private @Nullable Wire idleWire(Request request) {
        Wire open = connection.kept();
        try {
            if (open != null) {
                // Not before: a second reply follows the first within the silence, if at all.
                framing.awaitTurn();
                // That the wire has ended takes a moment to find out; to ask in vain would leave a doubt, or worse.
                if (bystander.hears(open, request.terms().once() || doubts.arePossible())) {
                    drainOrDrop(open);
                }
            }
        } catch (IOException e) {
            connection.drop();
        }
        return connection.kept();
    }

    private void drainOrDrop(Wire open) {
        try {
            if (open.drain()) {
                return;
            }
        } catch (IOException e) {
            // It has ended, as the next request would find.
        }
        connection.drop();
    }

    /** Nobody knows what was on a fresh wire before: it is left silent first, and what it brings is no reply. */
    private Wire connect() throws IOException {
        Wire fresh = connection.open();
        counters.opened();
        framing.begins();
        framing.awaitTurn();
        bystander.hears(fresh, false);
        return fresh;
    }

    private Outcome exchange(Wire open, Request request, byte[] pdu) throws Ended {
        framing.awaitTurn();
        byte[] frame = framing.frame(request.unit(), pdu);
        frame = request instanceof WriteRequest ? check.requireWrite(frame) : check.requireRead(frame);
        bystander.sent(request, frame);
        Stamp askedAt = clock.now();
        Duration wireTime = framing.wireTime(request);
        doubts.asked(request, askedAt, wireTime);
        Deadline deadline = Deadline.after(line.replyTimeout().plus(wireTime), clock);
        Reception in = new Reception(open, deadline, clock);
        try {
            open.send(frame);
            return settle(open, counted(request, frame, in, outcome(framing.receive(in, frame, request), askedAt)));
        } catch (IOException e) {
            if (in.count() == 0) {
                bystander.ended(new Outcome.Silent(askedAt), in);
                throw new Ended(e, askedAt);
            }
            connection.drop();
            String what = "the reply broke off after " + Pdu.hex(in.all()) + ": " + wordsOf(e);
            return counted(request, frame, in, new Outcome.Broken(Fault.ENDED, what, askedAt));
        } finally {
            turns.ended(request.unit());
        }
    }

    private Outcome counted(Request request, byte[] frame, Reception in, Outcome outcome) {
        counters.count(request, outcome);
        bystander.ended(outcome, in);
        if (!outcome.isReply() && FRAMES.isDebugEnabled()) {
            FRAMES.debug(
                    "line {}: {}: sent {}, received {}: {}",
                    line.name(),
                    request,
                    Pdu.hex(frame),
                    in.count() == 0 ? "nothing" : Pdu.hex(in.all()),
                    outcome instanceof Outcome.Broken broken ? broken.what() : "no reply in time");
        }
        return outcome;
    }

    private static Outcome outcome(Pdu.Content content, Stamp askedAt) {
        if (content instanceof Pdu.Content.Data data) {
            return new Outcome.Answered(Registers.of(data.words()), askedAt);
        }
        if (content instanceof Pdu.Content.Exception exception) {
            return new Outcome.Refused(exception.code(), askedAt);
        }
        if (content instanceof Pdu.Content.Wrong wrong) {
            return new Outcome.Broken(wrong.fault(), wrong.what(), askedAt);
        }
        return new Outcome.Silent(askedAt);
    }

    private Outcome settle(Wire open, Outcome outcome) {
        if (!outcome.isReply()) {
            drainOrDrop(open);
        }
        return outcome;
    }

    @Override
    public LineCounts counts() {
        return counters.ofLine();
    }

    @Override
    public LineCounts counts(UnitId unit) {
        return counters.ofUnit(unit);
    }

    @Override
    public long replies(UnitId unit) {
        return counters.replies(unit);
    }

    boolean isConnected() {
        return connection.kept() != null;
    }

    long connections() {
        return counters.connections();
    }

    @Override
    public List<Finding> findings() {
        return diagnosis.findings();
    }

    @Override
    public void close() {
        connection.close();
    }
}
