package burnerbridge.line.frame;

import burnerbridge.line.Fault;
import burnerbridge.line.Request;
import burnerbridge.site.UnitId;
import java.util.Arrays;
import java.util.Optional;

/**
 * The header of a Modbus TCP frame: transaction, protocol, length, unit (MODBUS Messaging on TCP/IP
 * Implementation Guide V1.0b, 3.1.3).
 */
record Mbap(int transaction, int protocol, int length, int unit) {
    static final int BYTES = 7;
    /** A unit, a function and one byte. */
    private static final int SHORTEST = 3;
    /** A unit and the longest data unit of 253 bytes. */
    private static final int LONGEST = 254;

    static byte[] frame(int transaction, UnitId unit, byte[] pdu) {
        byte[] frame = new byte[BYTES + pdu.length];
        int length = pdu.length + 1;
        frame[0] = (byte) (transaction >> 8);
        frame[1] = (byte) transaction;
        frame[4] = (byte) (length >> 8);
        frame[5] = (byte) length;
        frame[6] = (byte) unit.number();
        System.arraycopy(pdu, 0, frame, BYTES, pdu.length);
        return frame;
    }

    static Mbap parse(byte[] header) {
        return new Mbap(word(header, 0), word(header, 2), word(header, 4), header[6] & 0xFF);
    }

    private static int word(byte[] bytes, int at) {
        return (bytes[at] & 0xFF) << 8 | (bytes[at + 1] & 0xFF);
    }

    /** Unit and data unit of a whole frame of ours; empty where it is none. */
    static Optional<byte[]> opened(byte[] frame) {
        if (frame.length < BYTES + 1) {
            return Optional.empty();
        }
        Mbap mbap = parse(frame);
        boolean whole = mbap.protocol == 0 && mbap.length <= LONGEST && frame.length == BYTES + mbap.pduLength();
        return whole ? Optional.of(Arrays.copyOfRange(frame, BYTES - 1, frame.length)) : Optional.empty();
    }

    /** How many bytes of data unit follow the header. */
    int pduLength() {
        return length - 1;
    }

    /** Why this cannot head the reply to a request; empty where it can. */
    Optional<Pdu.Content> objection(int askedTransaction, Request request) {
        if (protocol != 0) {
            return wrong(Fault.FRAMING, "protocol id must be 0 (was " + protocol + ")");
        }
        if (length < SHORTEST || length > LONGEST) {
            return wrong(Fault.FRAMING, "length must be " + SHORTEST + " to " + LONGEST + " (was " + length + ")");
        }
        if (transaction != askedTransaction) {
            return wrong(Fault.FRAMING, "transaction id must be " + askedTransaction + " (was " + transaction + ")");
        }
        if (!request.takesReplyOf(unit)) {
            return wrong(Fault.UNIT, "unit must be " + request.unit() + " (was " + unit + ")");
        }
        return Optional.empty();
    }

    private static Optional<Pdu.Content> wrong(Fault fault, String what) {
        return Optional.of(new Pdu.Content.Wrong(fault, what));
    }
}
