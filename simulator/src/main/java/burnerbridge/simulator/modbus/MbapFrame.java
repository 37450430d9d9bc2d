package burnerbridge.simulator.modbus;

import java.io.DataInputStream;
import java.io.IOException;
import java.nio.ByteBuffer;

/**
 * A frame on TCP: transaction, protocol and unit identifiers before the PDU (Modbus Messaging on TCP/IP
 * Implementation Guide V1.0b, clause 3.1.3).
 */
@SuppressWarnings("ArrayRecordComponent") // frames are never compared
record MbapFrame(int transaction, int protocol, int unit, byte[] pdu) {
    static final int MODBUS = 0;
    /** The length field counts the unit and 1 to 253 bytes of PDU. */
    private static final int SHORTEST = 2;

    private static final int LONGEST = 254;
    private static final int HEADER = 7;

    /**
     * The next frame of a stream.
     *
     * @throws java.io.EOFException where the stream ends
     * @throws IOException where the length cannot be one, after which no frame's start can be told
     */
    static MbapFrame readFrom(DataInputStream in) throws IOException {
        int transaction = in.readUnsignedShort();
        int protocol = in.readUnsignedShort();
        int length = in.readUnsignedShort();
        if (length < SHORTEST || length > LONGEST) {
            throw new IOException("a frame's length must be " + SHORTEST + " to " + LONGEST + " (was " + length + ")");
        }
        int unit = in.readUnsignedByte();
        byte[] pdu = new byte[length - 1];
        in.readFully(pdu);
        return new MbapFrame(transaction, protocol, unit, pdu);
    }

    MbapFrame with(byte[] replyPdu) {
        return new MbapFrame(transaction, protocol, unit, replyPdu);
    }

    byte[] bytes() {
        return ByteBuffer.allocate(HEADER + pdu.length)
                .putShort((short) transaction)
                .putShort((short) protocol)
                .putShort((short) (pdu.length + 1))
                .put((byte) unit)
                .put(pdu)
                .array();
    }
}
