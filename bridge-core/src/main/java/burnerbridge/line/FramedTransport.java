package burnerbridge.line;

import burnerbridge.line.diagnosis.Census;
import burnerbridge.line.diagnosis.Finding;
import burnerbridge.line.diagnosis.LineDiagnosis;
import burnerbridge.line.frame.Framing;
import burnerbridge.line.frame.Pdu;
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
import java.util.function.Supplier;
import org.jspecify.annotations.Nullable;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * Strict transactions over any wire in any framing. A request has an absolute deadline, and its reply must
 * match it in everything that the framing and the data unit have. After a time-out or any doubt the wire
 * is drained or opened anew, so that a late reply can never answer the next question.
 */
final class FramedTransport implements LineTransport {
    /** Tells the raw bytes of every transaction that failed. */
    private static final Logger FRAMES = LoggerFactory.getLogger("burnerbridge.line.frames");

    private final LineDefinition line;
    private final LineCounters counters = new LineCounters();
    private final Supplier<Wire> wires;
    private final Framing framing;
    private final Doubts doubts;
    private final Turns turns;
    private final BridgeClock clock;
    private final Bystander bystander;
    private final LineDiagnosis diagnosis;
    private @Nullable Wire wire;

    private final Object closing = new Object();
    private boolean closed;
    /** What {@link #close} ends from another thread, opening or open. */
    private @Nullable Wire closable;

    /** The wire ended before a byte of a reply came, as it does when a peer drops idle connections. */
    private static final class Ended extends Exception {
        private static final long serialVersionUID = 1L;

        Ended(IOException cause) {
            super(cause);
        }
    }

    FramedTransport(
            LineDefinition line, Supplier<Wire> wires, Framing framing, Doubts doubts, Turns turns, BridgeClock clock) {
        this.line = line;
        this.wires = wires;
        this.framing = framing;
        this.doubts = doubts;
        this.turns = turns;
        this.clock = clock;
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

    /** Sends any data unit; what it may be is decided at {@link ReadFunctions}, on the bytes. */
    Outcome transact(ReadRequest request, byte[] pdu) {
        doubts.begin();
        Outcome outcome = ask(request, pdu);
        while (!doubts.ends(request, outcome)) {
            outcome = ask(request, pdu);
        }
        return outcome;
    }

    /**
     * A wire that turns out to have ended meanwhile is opened again, once, and asked anew; but not with what is
     * asked once only, since the peer may have taken the request before it ended.
     */
    private Outcome ask(ReadRequest request, byte[] pdu) {
        turns.await(request, this::isClosed);
        Wire open = idleWire(request.terms().once());
        if (open != null) {
            Stamp askedAt = clock.now();
            try {
                return exchange(open, request, pdu);
            } catch (Ended e) {
                drop();
                if (request.terms().once()) {
                    return ended(request, e, askedAt);
                }
            }
        }
        turns.await(request, this::isClosed);
        try {
            open = connect();
        } catch (IOException e) {
            drop();
            return new Outcome.NotConnected(line.endpoint() + ": " + e.getMessage());
        }
        Stamp askedAt = clock.now();
        try {
            return exchange(open, request, pdu);
        } catch (Ended e) {
            drop();
            return ended(request, e, askedAt);
        }
    }

    private Outcome ended(ReadRequest request, Ended e, Stamp askedAt) {
        String what = line.endpoint() + " ended the connection instead of replying: " + wordsOf(e);
        Outcome ended = new Outcome.Broken(Fault.ENDED, what, askedAt);
        counters.count(request, ended);
        return ended;
    }

    private static String wordsOf(Ended e) {
        return e.getCause() == null ? "" : String.valueOf(e.getCause().getMessage());
    }

    /**
     * The open wire, with nothing in it that nobody asked for.
     *
     * @param listen whether to find out that the wire has ended, too, which takes a moment
     */
    private @Nullable Wire idleWire(boolean listen) {
        Wire open = wire;
        try {
            if (open != null) {
                // Not before: a second reply follows the first within the silence, if at all.
                framing.awaitTurn();
                if (open.waiting() > 0 || (listen && brings(open))) {
                    bystander.unasked(open);
                    drainOrDrop(open);
                }
            }
        } catch (IOException e) {
            drop();
        }
        return wire;
    }

    private boolean brings(Wire open) throws IOException {
        return open.read(new byte[1], 0, 1, Deadline.after(Duration.ZERO, clock)) > 0;
    }

    private void drainOrDrop(Wire open) {
        try {
            if (open.drain()) {
                return;
            }
        } catch (IOException e) {
            // It has ended, as the next request would find.
        }
        drop();
    }

    private Wire connect() throws IOException {
        Wire next = wires.get();
        synchronized (closing) {
            if (closed) {
                throw new IOException("this line was closed");
            }
            closable = next;
        }
        next.open();
        counters.opened();
        wire = next;
        return next;
    }

    private Outcome exchange(Wire open, ReadRequest request, byte[] pdu) throws Ended {
        framing.awaitTurn();
        byte[] frame = ReadFunctions.require(framing.frame(request.unit(), pdu), framing.functionAt());
        bystander.sent(request, frame);
        Stamp askedAt = clock.now();
        doubts.asked(request, askedAt.ticks());
        Deadline deadline = Deadline.after(line.replyTimeout().plus(framing.wireTime(request)), clock);
        Reception in = new Reception(open, deadline, clock);
        try {
            open.send(frame);
            return settle(open, counted(request, frame, in, outcome(framing.receive(in, frame, request), askedAt)));
        } catch (IOException e) {
            if (in.count() == 0) {
                throw new Ended(e);
            }
            drop();
            String what = "the connection ended inside a reply: " + e.getMessage();
            return counted(request, frame, in, new Outcome.Broken(Fault.ENDED, what, askedAt));
        } finally {
            turns.ended(request.unit());
        }
    }

    private Outcome counted(ReadRequest request, byte[] frame, Reception in, Outcome outcome) {
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

    private void drop() {
        wire = null;
        closeWire();
    }

    private void closeWire() {
        synchronized (closing) {
            if (closable != null) {
                closable.close();
                closable = null;
            }
        }
    }

    @Override
    public LineCounts counts() {
        return counters.ofLine();
    }

    @Override
    public LineCounts counts(UnitId unit) {
        return counters.ofUnit(unit);
    }

    private boolean isClosed() {
        synchronized (closing) {
            return closed;
        }
    }

    @Override
    public List<Finding> findings() {
        return diagnosis.findings();
    }

    @Override
    public void close() {
        synchronized (closing) {
            closed = true;
        }
        closeWire();
    }
}
