package burnerbridge.simulator.frame;

/** In which way a device is reached. */
public enum Transport {
    MODBUS_TCP("Modbus TCP"),
    /** Through a device server that passes every byte on. */
    RTU_OVER_TCP("RTU over TCP"),
    RTU_SERIAL("RTU on a serial port");

    private final String words;

    Transport(String words) {
        this.words = words;
    }

    /** Whether frames are RTU frames, with a checksum and on a wire that has a rate. */
    public boolean isRtu() {
        return this != MODBUS_TCP;
    }

    /** Whether it has connections that can be ended. */
    public boolean hasConnections() {
        return this != RTU_SERIAL;
    }

    /** The bytes of a frame on it. */
    public byte[] bytes(Frame frame) {
        return isRtu() ? RtuFrame.bytes(frame) : MbapFrame.bytes(frame);
    }

    @Override
    public String toString() {
        return words;
    }
}
