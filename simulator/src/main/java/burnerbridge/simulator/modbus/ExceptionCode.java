package burnerbridge.simulator.modbus;

/** The exceptions that this server answers with (Modbus Application Protocol V1.1b3, clause 7). */
enum ExceptionCode {
    ILLEGAL_FUNCTION(1),
    ILLEGAL_DATA_ADDRESS(2),
    ILLEGAL_DATA_VALUE(3),
    GATEWAY_TARGET_FAILED(11);

    private final int number;

    ExceptionCode(int number) {
        this.number = number;
    }

    /** The reply to a request of this function: its code with the highest bit set, then the exception. */
    byte[] replyTo(int function) {
        return new byte[] {(byte) (function | 0x80), (byte) number};
    }
}
