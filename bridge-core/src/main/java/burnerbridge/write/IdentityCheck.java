package burnerbridge.write;

import burnerbridge.decode.Decoder;
import burnerbridge.line.LineTransport;
import burnerbridge.line.LineWrites;
import burnerbridge.line.Outcome;
import burnerbridge.model.BridgeClock;
import burnerbridge.model.Reading;
import burnerbridge.site.ControllerDefinition;
import burnerbridge.site.SitePoint;
import burnerbridge.table.ControllerLink;
import burnerbridge.table.ValueTable;
import burnerbridge.write.ask.Decision;
import burnerbridge.write.ask.Question;
import java.time.Duration;
import java.util.HashMap;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;

/**
 * Makes sure, on the line, that the controller behind a unit is the one that was approved: before the first write, after
 * every connection that is new and every time the controller was away, and once a minute besides. It belongs to the line's
 * own thread.
 */
final class IdentityCheck {
    private static final long HOLDS_FOR = Duration.ofMinutes(1).toNanos();

    private final WriteGate gate;
    private final Identities identities;
    private final ValueTable table;
    private final BridgeClock clock;
    private final Map<ControllerDefinition, Seen> seen = new HashMap<>();

    private record Seen(long connection, ControllerLink link, long at, String identity) {}

    IdentityCheck(WriteGate gate, Identities identities, ValueTable table, BridgeClock clock) {
        this.gate = gate;
        this.identities = identities;
        this.table = table;
        this.clock = clock;
    }

    /** What tells who a controller is. */
    SitePoint point(Permitted permitted) {
        return identities.point(permitted.controller()).orElseThrow();
    }

    /** Why a permitted point must not be written now; empty where its controller is the right one. */
    Optional<Decision.Refused> verify(Permitted permitted, LineTransport transport, LineWrites writes) {
        ControllerDefinition controller = permitted.controller();
        String approved = gate.approvedIdentity(controller).orElse("");
        Seen last = seen.get(controller);
        if (last != null
                && writes.isConnected()
                && last.connection() == writes.connections()
                && last.link().equals(table.link(controller))
                && clock.ticks() - last.at() < HOLDS_FOR
                && last.identity().equals(approved)) {
            return Optional.empty();
        }
        seen.remove(controller);
        SitePoint point = point(permitted);
        Outcome outcome = transport.read(LineWriter.request(point));
        if (!(outcome instanceof Outcome.Answered answered)) {
            return Optional.of(new Decision.Refused(
                    Question.ANSWERING, controller.name() + " does not say who it is: " + LineWriter.words(outcome)));
        }
        Reading reading = Decoder.decode(point.definition(), answered.data(), answered.askedAt(), Reading.notReadYet());
        String identity =
                reading.isGood() ? Objects.requireNonNull(reading.value()).text() : "";
        if (identity.isEmpty() || !identity.equals(approved)) {
            return Optional.of(new Decision.Refused(
                    Question.IDENTITY,
                    controller.name() + " says that it is " + (identity.isEmpty() ? "nobody" : identity) + ", and "
                            + approved + " was approved"));
        }
        seen.put(controller, new Seen(writes.connections(), table.link(controller), clock.ticks(), identity));
        return Optional.empty();
    }
}
