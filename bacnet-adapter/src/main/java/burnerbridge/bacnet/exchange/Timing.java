package burnerbridge.bacnet.exchange;

/**
 * How long we wait for others (ASHRAE 135, 5.3), as the device object says it.
 *
 * @param apduMillis for the answer to a request
 * @param segmentMillis for the acknowledgement of segments, and for the next segment
 * @param retries how often either is tried again
 */
public record Timing(int apduMillis, int segmentMillis, int retries) {
    public static final Timing USUAL = new Timing(6000, 2000, 2);

    private static final long MILLI = 1_000_000L;

    long apduNanos() {
        return apduMillis * MILLI;
    }

    long segmentNanos() {
        return segmentMillis * MILLI;
    }
}
