package burnerbridge.simulator.frame;

import java.io.DataInputStream;
import java.io.IOException;
import java.nio.ByteBuffer;

/**
 * Frames on TCP: transaction, protocol, length and unit before the PDU (Modbus Messaging on TCP/IP
 * Implementation Guide V1.0b, clause 3.1.3).
 */
public final class MbapFrame {
    /** The protocol identifier of Modbus. */
    public static final int MODBUS = 0;
    /** Where the length stands. */
    public static final int LENGTH_AT = 4;
    /** The length field counts the unit and 1 to 253 bytes of PDU. */
    private static final int SHORTEST = 2;

    private static final int LONGEST = 254;
    private static final int HEADER = 7;

    private MbapFrame() {}

    /**
     * The next frame of a stream.
     *
     * @throws java.io.EOFException where the stream ends
     * @throws IOException where the length cannot be one, after which no frame's start can be told
     */
    public static Frame readFrom(DataInputStream in) throws IOException {
        int transaction = in.readUnsignedShort();
        int protocol = in.readUnsignedShort();
        int length = in.readUnsignedShort();
        if (length < SHORTEST || length > LONGEST) {
            throw new IOException("a frame's length must be " + SHORTEST + " to " + LONGEST + " (was " + length + ")");
        }
        int unit = in.readUnsignedByte();
        byte[] pdu = new byte[length - 1];
        in.readFully(pdu);
        return new Frame(transaction, protocol, unit, pdu);
    }

    static byte[] bytes(Frame frame) {
        return ByteBuffer.allocate(HEADER + frame.pdu().length)
                .putShort((short) frame.transaction())
                .putShort((short) frame.protocol())
                .putShort((short) (frame.pdu().length + 1))
                .put((byte) frame.unit())
                .put(frame.pdu())
                .array();
    }
}
