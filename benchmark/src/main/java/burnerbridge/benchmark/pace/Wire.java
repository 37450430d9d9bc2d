package burnerbridge.benchmark.pace;

/**
 * A serial line of 8 data bits, no parity and 2 stop bits, and what a read on it takes, written down apart
 * from the bridge's own cost model (MODBUS over Serial Line V1.02, 2.5.1).
 */
public record Wire(int baud) {
    static final int BITS = 11;
    public static final int STOP_BITS = 2;
    private static final int REQUEST = 8;
    private static final int REPLY_BUT_DATA = 5;

    double characterMillis() {
        return 1000.0 * BITS / baud;
    }

    double silenceMillis() {
        return baud > 19_200 ? 1.75 : 3.5 * characterMillis();
    }

    /**
     * From the first bit of the request to the last of the reply.
     *
     * @param turnaround in milliseconds, besides the silence between the two
     */
    double transactionMillis(int registers, double turnaround) {
        return (REQUEST + REPLY_BUT_DATA + 2 * registers) * characterMillis() + silenceMillis() + turnaround;
    }

    /** The turnaround, in milliseconds, of a device whose transaction takes so long. */
    double turnaroundMillis(int registers, double transactionMillis) {
        return transactionMillis - transactionMillis(registers, 0);
    }
}
