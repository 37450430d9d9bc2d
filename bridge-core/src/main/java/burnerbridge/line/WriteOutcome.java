package burnerbridge.line;

import burnerbridge.model.Stamp;

/** How a write ended. That it was accepted proves nothing yet: what the registers hold afterwards does. */
public sealed interface WriteOutcome {

    /** The unit replied as the protocol wants it. */
    record Accepted(Stamp sentAt) implements WriteOutcome {}

    /**
     * The unit answered with an exception.
     *
     * @param code the exception code, 1 to 255 (Modbus Application Protocol V1.1b3, 7)
     */
    record Refused(int code, Stamp sentAt) implements WriteOutcome {}

    /**
     * It left, at least in part, and nothing came that tells what became of it. It is never sent again by itself.
     *
     * @param what what came instead, for people
     */
    record Unknown(String what, Stamp sentAt) implements WriteOutcome {}

    /** Not one byte of it left. */
    record NotSent(String why) implements WriteOutcome {}
}
