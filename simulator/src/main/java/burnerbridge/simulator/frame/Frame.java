package burnerbridge.simulator.frame;

/**
 * A request or reply apart from how it travels.
 *
 * @param transaction its number, 0 to 65535; RTU frames have none and leave it 0
 * @param protocol 0 for Modbus; RTU frames have none and leave it 0
 * @param unit 0 to 255
 * @param pdu function code and data, never changed by anybody
 */
@SuppressWarnings("ArrayRecordComponent") // frames are never compared
public record Frame(int transaction, int protocol, int unit, byte[] pdu) {

    /** An RTU frame, which has neither transaction nor protocol. */
    public static Frame rtu(int unit, byte[] pdu) {
        return new Frame(0, 0, unit, pdu);
    }

    public int function() {
        return pdu[0] & 0xFF;
    }

    public Frame withPdu(byte[] other) {
        return new Frame(transaction, protocol, unit, other);
    }

    public Frame withUnit(int other) {
        return new Frame(transaction, protocol, other & 0xFF, pdu);
    }

    public Frame withTransaction(int other) {
        return new Frame(other & 0xFFFF, protocol, unit, pdu);
    }

    public Frame withProtocol(int other) {
        return new Frame(transaction, other & 0xFFFF, unit, pdu);
    }
}
