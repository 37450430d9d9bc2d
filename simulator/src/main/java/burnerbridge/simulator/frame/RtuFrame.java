package burnerbridge.simulator.frame;

import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.util.Arrays;

/** Frames on a serial line: unit, PDU, checksum (MODBUS over Serial Line V1.02, clause 2.5.1). */
final class RtuFrame {
    private static final int CHECKSUM = 2;
    /** A unit, a function and the checksum. */
    static final int SHORTEST = 4;

    static final int LONGEST = 256;

    private RtuFrame() {}

    static byte[] bytes(Frame frame) {
        ByteBuffer bytes = ByteBuffer.allocate(1 + frame.pdu().length + CHECKSUM)
                .put((byte) frame.unit())
                .put(frame.pdu());
        int checksum = checksum(bytes.array(), 1 + frame.pdu().length);
        return bytes.order(ByteOrder.LITTLE_ENDIAN).putShort((short) checksum).array();
    }

    /** Whether the last two bytes are the checksum of those before them. */
    static boolean holds(byte[] bytes, int length) {
        return length >= SHORTEST && checksum(bytes, length) == 0;
    }

    static Frame parse(byte[] bytes, int length) {
        return Frame.rtu(bytes[0] & 0xFF, Arrays.copyOfRange(bytes, 1, length - CHECKSUM));
    }

    /**
     * The checksum of clause 6.2: 0 over bytes that end in their own.
     *
     * @param length how many bytes of the array count
     */
    private static int checksum(byte[] bytes, int length) {
        int register = 0xFFFF;
        for (int i = 0; i < length; i++) {
            register ^= bytes[i] & 0xFF;
            for (int shift = 0; shift < 8; shift++) {
                boolean falls = (register & 1) != 0;
                register >>>= 1;
                register = falls ? register ^ 0xA001 : register;
            }
        }
        return register;
    }
}
