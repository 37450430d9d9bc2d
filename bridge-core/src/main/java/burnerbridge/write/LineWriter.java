package burnerbridge.write;

import burnerbridge.decode.Decoder;
import burnerbridge.line.LineTransport;
import burnerbridge.line.LineWrites;
import burnerbridge.line.Outcome;
import burnerbridge.line.ReadRequest;
import burnerbridge.line.ReadTerms;
import burnerbridge.line.WritableLine;
import burnerbridge.line.WriteOutcome;
import burnerbridge.model.BridgeClock;
import burnerbridge.model.Reading;
import burnerbridge.model.Registers;
import burnerbridge.poll.LineErrand;
import burnerbridge.site.AddressRange;
import burnerbridge.site.ControllerDefinition;
import burnerbridge.site.Name;
import burnerbridge.site.ReadRules;
import burnerbridge.site.SitePoint;
import burnerbridge.write.ask.Decision;
import burnerbridge.write.ask.Question;
import java.io.IOException;
import java.time.Duration;
import java.util.ArrayDeque;
import java.util.Deque;
import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * Writes what the gate has given a ticket for, on the line's own thread: who is behind the unit is made sure of, the budget
 * is debited, the intent is on the disk, and every question is asked once more before a byte leaves; then the registers
 * are read back, which alone tells what became of it. Nothing is sent a second time by itself.
 */
final class LineWriter implements LineErrand {
    private static final Logger LOG = LoggerFactory.getLogger(LineWriter.class);

    /** Some controllers take what was written over into their registers a little later. */
    private static final int READ_BACKS = 3;

    private static final long BETWEEN_READ_BACKS = Duration.ofMillis(500).toNanos();

    private final Name line;
    private final WriteGate gate;
    private final GateKeeping keeping;
    private final LineTransport transport;
    private final LineWrites writes;
    private final IdentityCheck identity;
    private final BridgeClock clock;
    private final Deque<Check> checks = new ArrayDeque<>();

    /** A write that left and was not seen in the registers yet. */
    private record Check(Ticket ticket, WriteOutcome outcome, int left, long notBefore) {}

    LineWriter(
            Name line,
            WriteGate gate,
            GateKeeping keeping,
            WritableLine writable,
            IdentityCheck identity,
            BridgeClock clock) {
        this.line = line;
        this.gate = gate;
        this.keeping = keeping;
        this.transport = writable.transport();
        this.writes = writable.writes();
        this.identity = identity;
        this.clock = clock;
    }

    @Override
    public OptionalLong readyAt(long now) {
        Check check = checks.peek();
        OptionalLong ticket = gate.readyAt(line, writes::readyAt, now);
        if (check == null) {
            return ticket;
        }
        return OptionalLong.of(
                ticket.isPresent() && ticket.getAsLong() - check.notBefore() < 0
                        ? ticket.getAsLong()
                        : check.notBefore());
    }

    @Override
    public List<SitePoint> run() {
        Check check = checks.peek();
        if (check != null && clock.ticks() - check.notBefore() >= 0) {
            return readBack(checks.remove());
        }
        Optional<Ticket> ticket = gate.begin(line, writes::readyAt);
        return ticket.isPresent() ? doneOrUnknown(ticket.get()) : List.of();
    }

    /** A defect of ours must not leave a ticket under way for ever. */
    private List<SitePoint> doneOrUnknown(Ticket ticket) {
        try {
            return write(ticket);
        } catch (RuntimeException e) {
            end(ticket, new Result.Unknown("the bridge failed in itself: " + e.getMessage()));
            throw e;
        }
    }

    private List<SitePoint> write(Ticket ticket) {
        Optional<Decision.Refused> stranger = identity.verify(ticket.permitted(), transport, writes);
        if (stranger.isPresent()) {
            gate.ended(ticket, new Result.Withheld(stranger.get()));
            // So that whoever asks next is told at once.
            return List.of(identity.point(ticket.permitted()));
        }
        long connection = writes.connections();
        Registers data = ticket.value().registers();
        byte[] bytes = writes.encode(ticket.permitted().template(), data);
        try {
            keeping.intend(ticket, bytes);
        } catch (IOException e) {
            gate.ended(
                    ticket,
                    new Result.Withheld(new Decision.Refused(
                            Question.RECORD, "no record of a write can be kept, so nothing is: " + e.getMessage())));
            return List.of();
        }
        Optional<Decision.Refused> no = writes.connections() == connection
                ? gate.leaves(ticket)
                : Optional.of(new Decision.Refused(Question.IDENTITY, "the connection is another than a moment ago"));
        if (no.isPresent()) {
            return end(ticket, new Result.Withheld(no.get()));
        }
        return sent(ticket, writes.write(ticket.permitted().template(), data));
    }

    private List<SitePoint> sent(Ticket ticket, WriteOutcome outcome) {
        LOG.trace("line {}: {} -> {}", line, ticket, outcome);
        if (outcome instanceof WriteOutcome.NotSent notSent) {
            return end(ticket, new Result.NotSent(notSent.why()));
        }
        if (outcome instanceof WriteOutcome.Refused refused) {
            return end(ticket, new Result.RefusedByController(refused.code()));
        }
        if (ticket.cause() == Cause.HEARTBEAT) {
            // What a controller does with a beat is its own affair: many take it out again.
            return end(
                    ticket,
                    outcome instanceof WriteOutcome.Unknown unknown
                            ? new Result.Unknown(unknown.what())
                            : new Result.Written(
                                    ticket.value().registers(), ticket.value().value()));
        }
        return readBack(new Check(ticket, outcome, READ_BACKS, clock.ticks()));
    }

    private List<SitePoint> readBack(Check check) {
        Ticket ticket = check.ticket();
        Outcome outcome = transport.read(request(ticket.permitted().point()));
        if (outcome instanceof Outcome.Answered answered) {
            Registers holds = OwnBits.of(ticket.permitted(), answered.data());
            if (holds.equals(ticket.value().registers())) {
                return end(ticket, new Result.Written(holds, ticket.value().value()));
            }
        }
        if (check.left() > 1) {
            checks.add(new Check(ticket, check.outcome(), check.left() - 1, clock.ticks() + BETWEEN_READ_BACKS));
            return List.of();
        }
        return end(ticket, result(check, outcome));
    }

    private static Result result(Check check, Outcome readBack) {
        String sent = check.outcome() instanceof WriteOutcome.Unknown unknown
                ? "no reply told what became of it (" + unknown.what() + ")"
                : "the controller accepted it";
        if (readBack instanceof Outcome.Answered answered) {
            Reading reading = Decoder.decode(
                    check.ticket().permitted().point().definition(),
                    answered.data(),
                    answered.askedAt(),
                    Reading.notReadYet());
            String holds = reading.value() == null
                    ? answered.data().hex()
                    : reading.value().text();
            return new Result.NotTaken(OwnBits.of(check.ticket().permitted(), answered.data()), holds, sent);
        }
        return new Result.Unknown(sent + ", and its registers cannot be read back: " + words(readBack));
    }

    static String words(Outcome outcome) {
        if (outcome instanceof Outcome.Refused refused) {
            return "exception " + refused.code();
        }
        if (outcome instanceof Outcome.Broken broken) {
            return broken.what();
        }
        return outcome instanceof Outcome.NotConnected down ? down.why() : "no reply";
    }

    private List<SitePoint> end(Ticket ticket, Result result) {
        keeping.ended(ticket, result);
        gate.ended(ticket, result);
        return List.of(ticket.permitted().point());
    }

    /** The read of a point's own registers, as its type has them read. */
    static ReadRequest request(SitePoint point) {
        ControllerDefinition controller = point.controller();
        ReadRules rules = controller.type().rules();
        AddressRange range = rules.asRead(point.definition().addresses().get(0));
        return new ReadRequest(
                controller.unit(),
                range.table(),
                range.first(),
                range.count(),
                new ReadTerms(controller.anyReplyUnit(), false, rules.pause()));
    }
}
