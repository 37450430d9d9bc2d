package burnerbridge.poll.agenda;

/**
 * What an exception code asks of the poller (Modbus Application Protocol V1.1b3, 7).
 */
public enum Refusal {
    /** The unit does not know the function, whatever the registers. */
    NO_FUNCTION,
    /** One of these registers is not to be had, or not so many of them at once. */
    REGISTERS_REFUSED,
    /** Not to be had now, for a reason that other registers would not change. */
    REFUSED,
    /** The unit is there and cannot answer now. */
    BUSY,
    /** A gateway answers in place of a unit that it cannot reach. */
    LOST_BEHIND_GATEWAY;

    public static Refusal of(int code) {
        return switch (code) {
            case 1 -> NO_FUNCTION;
            case 2, 3 -> REGISTERS_REFUSED;
            case 5, 6 -> BUSY;
            case 10, 11 -> LOST_BEHIND_GATEWAY;
            default -> REFUSED;
        };
    }

    /** The name that the protocol gives a code. */
    static String meaning(int code) {
        return switch (code) {
            case 1 -> "illegal function";
            case 2 -> "illegal data address";
            case 3 -> "illegal data value";
            case 4 -> "server device failure";
            case 5 -> "acknowledge";
            case 6 -> "server device busy";
            case 8 -> "memory parity error";
            case 10 -> "gateway path unavailable";
            case 11 -> "gateway target device failed to respond";
            default -> "no code of the protocol";
        };
    }
}
