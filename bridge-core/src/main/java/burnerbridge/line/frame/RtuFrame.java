package burnerbridge.line.frame;

import burnerbridge.line.Fault;
import burnerbridge.line.Request;
import burnerbridge.site.UnitId;
import java.util.Arrays;
import java.util.Optional;

/** A frame of unit, data unit and checksum. */
final class RtuFrame {
    static final int FUNCTION_AT = 1;
    /** A unit, a function, a byte count or exception code: enough to know how long a reply is. */
    static final int HEAD_BYTES = 3;

    private static final int EXCEPTION_FLAG = 0x80;
    private static final int EXCEPTION_BYTES = 5;
    private static final int AROUND_PDU = 1 + Crc16.BYTES;
    /** The longest frame (MODBUS over Serial Line V1.02, 2.5.1). */
    private static final int LONGEST = 256;

    private RtuFrame() {}

    static byte[] of(UnitId unit, byte[] pdu) {
        byte[] frame = new byte[1 + pdu.length + Crc16.BYTES];
        frame[0] = (byte) unit.number();
        System.arraycopy(pdu, 0, frame, 1, pdu.length);
        int crc = Crc16.of(frame, 0, 1 + pdu.length);
        frame[frame.length - 2] = (byte) crc;
        frame[frame.length - 1] = (byte) (crc >> 8);
        return frame;
    }

    static byte[] pdu(byte[] frame) {
        return Arrays.copyOfRange(frame, 1, frame.length - Crc16.BYTES);
    }

    /** Unit and data unit of a whole frame; empty where it is none. */
    static Optional<byte[]> opened(byte[] frame) {
        boolean whole = frame.length > AROUND_PDU && frame.length <= LONGEST && Crc16.holds(frame, 0, frame.length);
        return whole ? Optional.of(Arrays.copyOf(frame, frame.length - Crc16.BYTES)) : Optional.empty();
    }

    static int requestBytes(Request request) {
        return AROUND_PDU + Pdu.requestBytes(request);
    }

    /** How long the reply is that a request wants. */
    static int replyBytes(Request request) {
        return AROUND_PDU + Pdu.replyBytes(request);
    }

    /** How long the reply to a request is, going by its first bytes; 0 where they do not begin one. */
    static int length(byte[] head, Request request) {
        if (!request.takesReplyOf(head[0] & 0xFF)) {
            return 0;
        }
        int function = request.function();
        if (isAt(head, FUNCTION_AT, function | EXCEPTION_FLAG)) {
            return EXCEPTION_BYTES;
        }
        return isAt(head, FUNCTION_AT, function) && isAt(head, 2, Pdu.secondOfReply(request)) ? replyBytes(request) : 0;
    }

    private static boolean isAt(byte[] bytes, int place, int value) {
        return (bytes[place] & 0xFF) == value;
    }

    /** What bytes are that are not the reply to a request. */
    static Pdu.Content diagnose(byte[] got, byte[] sent, Request request) {
        String bytes = Pdu.hex(got);
        if (!Pdu.isRepeated(request)
                && got.length >= sent.length
                && Arrays.equals(Arrays.copyOf(got, sent.length), sent)) {
            return new Pdu.Content.Wrong(Fault.ECHO, "the request itself came back: the line echoes (" + bytes + ")");
        }
        if (got.length >= EXCEPTION_BYTES && Crc16.holds(got, 0, got.length)) {
            return ofAnother(got, request);
        }
        int stray = strayBefore(got, request);
        if (stray > 0) {
            return new Pdu.Content.Wrong(
                    Fault.STRAY_BYTES, stray + " stray bytes before the reply, which is not used: " + bytes);
        }
        int lost = lostBefore(got, request);
        if (lost > 0) {
            String first = lost == 1 ? "the first byte" : "the first " + lost + " bytes";
            return new Pdu.Content.Wrong(
                    Fault.BEGINNING_LOST,
                    first + " of the reply " + (lost == 1 ? "is" : "are") + " missing or wrong, so it is not used: "
                            + bytes);
        }
        if (got.length < HEAD_BYTES && isBeginning(got, request)) {
            return Pdu.Content.cutOff(got, replyBytes(request));
        }
        int length = got.length < HEAD_BYTES ? 0 : length(got, request);
        if (length > got.length) {
            return Pdu.Content.cutOff(got, length);
        }
        return length > 0 ? spoilt(got, length) : noReply(got);
    }

    /** Two units that answer at once bring more bytes than one, and never more than both. */
    private static Pdu.Content spoilt(byte[] got, int length) {
        boolean overlaid = got.length > length && got.length <= 2 * length && !RtuTraffic.holdsFrame(got);
        return new Pdu.Content.Wrong(
                overlaid ? Fault.OVERLAID : Fault.CHECKSUM, "the checksum does not hold: " + Pdu.hex(got));
    }

    private static Pdu.Content noReply(byte[] got) {
        return RtuTraffic.holdsFrame(got)
                ? new Pdu.Content.Wrong(Fault.UNIT, "frames of others: " + Pdu.hex(got))
                : new Pdu.Content.Wrong(Fault.FRAMING, "these bytes are no frame: " + Pdu.hex(got));
    }

    private static boolean isBeginning(byte[] got, Request request) {
        return isAt(got, 0, request.unit().number())
                && (got.length < 2 || (got[FUNCTION_AT] & ~EXCEPTION_FLAG) == request.function());
    }

    /**
     * How many first bytes are missing from a reply, or changed in it: with them put in place, which are
     * known from the request, its checksum holds. 0 where it is not so.
     */
    private static int lostBefore(byte[] got, Request request) {
        byte[] head = {(byte) request.unit().number(), (byte) request.function(), (byte) Pdu.secondOfReply(request)};
        int lost = lostFrom(head, replyBytes(request), got);
        if (lost > 0) {
            return lost;
        }
        byte[] exception = {head[0], (byte) (head[1] | EXCEPTION_FLAG)};
        return lostFrom(exception, EXCEPTION_BYTES, got);
    }

    private static int lostFrom(byte[] head, int length, byte[] got) {
        for (int lost = 1; lost <= head.length; lost++) {
            if (holdsWith(head, lost, length, got, lost) || holdsWith(head, lost, length, got, 0)) {
                return lost;
            }
        }
        return 0;
    }

    /** @param missing how many of the {@code lost} bytes have not come at all; the others have come wrong */
    private static boolean holdsWith(byte[] head, int lost, int length, byte[] got, int missing) {
        if (got.length != length - missing) {
            return false;
        }
        byte[] whole = Arrays.copyOf(head, length);
        System.arraycopy(got, lost - missing, whole, lost, length - lost);
        return Crc16.holds(whole, 0, length);
    }

    /** A frame whose checksum holds, and which is not the reply. */
    private static Pdu.Content ofAnother(byte[] frame, Request request) {
        if (!request.takesReplyOf(frame[0] & 0xFF)) {
            return new Pdu.Content.Wrong(
                    Fault.UNIT,
                    "unit must be " + request.unit() + " (was " + (frame[0] & 0xFF) + ") in " + Pdu.hex(frame));
        }
        return Pdu.decode(request, pdu(frame));
    }

    /** How many bytes stand before a whole reply at the end; 0 where there is none. */
    private static int strayBefore(byte[] got, Request request) {
        for (int from = 1; from + EXCEPTION_BYTES <= got.length; from++) {
            byte[] rest = Arrays.copyOfRange(got, from, got.length);
            if (length(rest, request) == rest.length && Crc16.holds(rest, 0, rest.length)) {
                return from;
            }
        }
        return 0;
    }
}
