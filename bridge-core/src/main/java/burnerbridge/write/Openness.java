package burnerbridge.write;

import burnerbridge.write.ask.Source;
import java.util.Optional;

/** Whether the gate is open. It belongs to the gate's monitor. */
final class Openness {
    private Authority authority;
    /** Why it closes to all but the bridge's own last acts; empty while it does not. */
    private String closing = "";
    /** Whether it never opens again. */
    private boolean ended;

    Openness(Authority authority) {
        this.authority = authority;
    }

    Authority authority() {
        return authority;
    }

    boolean isOpen() {
        return closing.isEmpty() && authority.isInForce();
    }

    void close(String why) {
        closing = ended ? closing : why;
    }

    /** Closes for good, whatever is approved meanwhile. */
    void end(String why) {
        closing = why;
        ended = true;
    }

    void reopen() {
        closing = ended ? closing : "";
    }

    void become(Authority other) {
        authority = other;
        reopen();
    }

    /** Why a source may not write a point whatever it asks for; empty where it may. */
    Optional<String> objection(PointState state, Source source) {
        if (!authority.isInForce()) {
            return Optional.of(notInForce(state.permitted));
        }
        if (!state.asleep.isEmpty()) {
            return Optional.of(state.permitted.id() + " sleeps: " + state.asleep);
        }
        return closing.isEmpty() || source.equals(Source.Bridge.SILENCE)
                ? Optional.empty()
                : Optional.of("nothing can be asked for: " + closing);
    }

    /** Why a ticket that was given under another approval is good for nothing; empty where it is not so. */
    Optional<String> objection(Ticket ticket) {
        if (authority.hash().equals(Optional.of(ticket.hash()))) {
            return Optional.empty();
        }
        return Optional.of(
                authority.isInForce()
                        ? "what " + ticket.permitted().id() + " was asked under is no longer what is approved"
                        : notInForce(ticket.permitted()));
    }

    private String notInForce(Permitted permitted) {
        return permitted.id() + " is not approved: " + authority.why();
    }
}
