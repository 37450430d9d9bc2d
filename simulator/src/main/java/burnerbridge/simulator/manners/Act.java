package burnerbridge.simulator.manners;

import java.time.Duration;

/** One thing that a device or its wire does after a request. They are done in order. */
public sealed interface Act {

    /** Puts bytes on the wire, at the rate of the wire. */
    @SuppressWarnings("ArrayRecordComponent") // acts are never compared
    record Send(byte[] bytes) implements Act {}

    /** Does nothing for so long. */
    record Pause(Duration length) implements Act {}

    /** Does nothing until so long after the request had come; nothing where that is over. */
    record NotBefore(Duration afterRequest) implements Act {}

    /** Ends the connection; without effect on a serial port. */
    record HangUp() implements Act {}

    /** Ends the connection and takes no other for so long; without effect on a serial port. */
    record Refuse(Duration length) implements Act {}
}
