package burnerbridge.line.frame;

import burnerbridge.line.Heard;
import burnerbridge.line.Request;
import burnerbridge.site.UnitId;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * Finds the whole frames among bytes, whoever sent them, by their length and checksum. Functions 1 to 6, 15, 16 and 22
 * and the exceptions to them are known (Modbus Application Protocol V1.1b3, 6.1 to 6.6, 6.11, 6.12, 6.16).
 */
final class RtuTraffic {
    private static final int EXCEPTION_FLAG = 0x80;
    private static final int EXCEPTION_BYTES = 5;
    private static final int FIXED_BYTES = 8;
    private static final int MASK_WRITE_BYTES = 10;
    private static final int AROUND_REPLY_DATA = 5;
    private static final int AROUND_WRITE_DATA = 9;
    private static final int BYTE_COUNT_OF_WRITE_AT = 6;
    private static final int MOST_BITS = 2000;
    private static final int MOST_REGISTERS = 125;

    /** One frame, as it stands among the bytes. */
    private record Frame(byte[] bytes, boolean isRequest) {
        int unit() {
            return bytes[0] & 0xFF;
        }
    }

    private RtuTraffic() {}

    static boolean holdsFrame(byte[] bytes) {
        return !frames(bytes).isEmpty();
    }

    /** @see Framing#overheard */
    static List<Overheard> overheard(
            byte[] bytes, byte[] sent, Request request, boolean settled, @Nullable WriteRequest written) {
        List<Frame> frames = frames(bytes);
        if (frames.isEmpty()) {
            return List.of(Overheard.NOISE);
        }
        List<Overheard> all = new ArrayList<>();
        boolean others = false;
        byte[] before = new byte[0];
        for (Frame frame : frames) {
            if (written != null && !others && answers(frame, written)) {
                answered(frame, sent, request == written && settled, all);
            } else if (!frame.isRequest) {
                all.add(reply(frame, others ? null : request, settled));
            } else if (!Arrays.equals(frame.bytes, sent) && !Arrays.equals(frame.bytes, before)) {
                all.add(new Overheard(Heard.REQUEST, new UnitId(frame.unit())));
                others = true;
            }
            before = frame.bytes;
        }
        return all;
    }

    private static boolean answers(Frame frame, WriteRequest written) {
        Pdu.Content content = Pdu.decode(written, RtuFrame.pdu(frame.bytes));
        return written.takesReplyOf(frame.unit()) && !(content instanceof Pdu.Content.Wrong);
    }

    /** What is the same as the write, and comes when no reply had come, may be the line's echo of it. */
    private static void answered(Frame frame, byte[] sent, boolean again, List<Overheard> all) {
        if (again || !Arrays.equals(frame.bytes, sent)) {
            all.add(new Overheard(again ? Heard.SECOND_REPLY : Heard.LATE_REPLY, new UnitId(frame.unit())));
        }
    }

    /** @param ours what the reply may belong to; nothing where somebody else has asked since */
    private static Overheard reply(Frame frame, @Nullable Request ours, boolean settled) {
        boolean fits = ours != null && RtuFrame.length(frame.bytes, ours) == frame.bytes.length;
        Heard what = settled ? Heard.SECOND_REPLY : Heard.LATE_REPLY;
        return new Overheard(fits ? what : Heard.OTHERS_REPLY, new UnitId(frame.unit()));
    }

    private static List<Frame> frames(byte[] bytes) {
        List<Frame> frames = new ArrayList<>();
        int at = 0;
        while (at + EXCEPTION_BYTES <= bytes.length) {
            int request = requestBytes(bytes, at);
            int length = holds(bytes, at, request) ? request : replyBytes(bytes, at);
            if (holds(bytes, at, length)) {
                frames.add(new Frame(Arrays.copyOfRange(bytes, at, at + length), length == request));
                at += length;
            } else {
                at++;
            }
        }
        return frames;
    }

    private static boolean holds(byte[] bytes, int at, int length) {
        return length > 0 && at + length <= bytes.length && Crc16.holds(bytes, at, length);
    }

    private static int byteAt(byte[] bytes, int place) {
        return place < bytes.length ? bytes[place] & 0xFF : 0;
    }

    private static int wordAt(byte[] bytes, int place) {
        return byteAt(bytes, place) << 8 | byteAt(bytes, place + 1);
    }

    /** How long the request that begins here would be; 0 where none does. */
    private static int requestBytes(byte[] bytes, int at) {
        int third = byteAt(bytes, at + 2);
        return switch (byteAt(bytes, at + RtuFrame.FUNCTION_AT)) {
            // A reply of three bytes of bits can look alike, and is taken for one.
            case 1, 2 -> third != 3 && isIn(wordAt(bytes, at + 4), MOST_BITS) ? FIXED_BYTES : 0;
            case 3, 4 -> isIn(wordAt(bytes, at + 4), MOST_REGISTERS) ? FIXED_BYTES : 0;
            // Its reply is the same once more.
            case 5, 6 -> FIXED_BYTES;
            case 22 -> MASK_WRITE_BYTES;
            case 15, 16 -> AROUND_WRITE_DATA + byteAt(bytes, at + BYTE_COUNT_OF_WRITE_AT);
            default -> 0;
        };
    }

    private static boolean isIn(int count, int most) {
        return count >= 1 && count <= most;
    }

    /** How long the reply that begins here would be; 0 where none does. */
    private static int replyBytes(byte[] bytes, int at) {
        int function = byteAt(bytes, at + RtuFrame.FUNCTION_AT);
        return switch (function & ~EXCEPTION_FLAG) {
            case 1, 2, 3, 4 -> function < EXCEPTION_FLAG ? AROUND_REPLY_DATA + byteAt(bytes, at + 2) : EXCEPTION_BYTES;
            case 5, 6, 15, 16 -> function < EXCEPTION_FLAG ? FIXED_BYTES : EXCEPTION_BYTES;
            case 22 -> function < EXCEPTION_FLAG ? MASK_WRITE_BYTES : EXCEPTION_BYTES;
            default -> 0;
        };
    }
}
