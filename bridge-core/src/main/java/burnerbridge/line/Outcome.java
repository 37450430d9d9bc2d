package burnerbridge.line;

import burnerbridge.model.Registers;
import burnerbridge.model.Stamp;

/** How a transaction ended. Trouble on a line is expected, so it is a value and never an exception. */
public sealed interface Outcome {

    /** Whether the unit itself replied, be it with data or with an exception. */
    default boolean isReply() {
        return this instanceof Answered || this instanceof Refused;
    }

    /**
     * A reply that passed every check.
     *
     * @param data exactly the registers, or bits as words of 0 and 1, that were asked for
     * @param askedAt when the request left; where the reply may be that to an earlier one of the same registers,
     *     when that one did, so that it is never later than the reading
     */
    record Answered(Registers data, Stamp askedAt) implements Outcome {}

    /**
     * The unit answered with an exception.
     *
     * @param code the exception code, 1 to 255 (Modbus Application Protocol V1.1b3, 7)
     */
    record Refused(int code, Stamp askedAt) implements Outcome {}

    /** No byte of a reply came before the deadline. */
    record Silent(Stamp askedAt) implements Outcome {}

    /**
     * Something came that is not the reply to this request. Nothing of it is used, and the connection
     * is opened anew, or drained, before the next request.
     *
     * @param what what was wrong with it, with the bytes where they help
     */
    record Broken(Fault fault, String what, Stamp askedAt) implements Outcome {}

    /**
     * There is no connection to ask over.
     *
     * @param why for people: the address and what the system said
     */
    record NotConnected(String why) implements Outcome {}
}
