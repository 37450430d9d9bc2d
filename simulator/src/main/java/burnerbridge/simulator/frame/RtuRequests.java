package burnerbridge.simulator.frame;

import java.util.Optional;

/**
 * Finds requests in the bytes of a serial line. A request of a function of which the length is known ends
 * there, if its checksum holds; what is of another function, or longer, ends with a silence. What does not
 * check is dropped with the next silence. For one thread.
 */
public final class RtuRequests {
    private static final int FUNCTION_AT = 1;
    /** Where the number of data bytes stands in a request to write several, and in one to write and read. */
    private static final int COUNT_OF_WRITE_AT = 6;

    private static final int COUNT_OF_BOTH_AT = 10;

    private final byte[] bytes = new byte[RtuFrame.LONGEST];
    private int count;

    /** Takes a byte, and tells the request that it ends, if it ends one. */
    public Optional<Frame> take(byte next) {
        if (count < bytes.length) {
            bytes[count] = next;
        }
        count++;
        return count == length() ? ended() : Optional.empty();
    }

    /** The line has been silent: tells the request that this ends, if any, and begins anew. */
    public Optional<Frame> silence() {
        Optional<Frame> request = count <= bytes.length ? ended() : Optional.empty();
        count = 0;
        return request;
    }

    /** Whether bytes are there that are no whole request yet. */
    public boolean isInsideOne() {
        return count > 0;
    }

    private Optional<Frame> ended() {
        if (!RtuFrame.holds(bytes, count)) {
            return Optional.empty();
        }
        Frame request = RtuFrame.parse(bytes, count);
        count = 0;
        return Optional.of(request);
    }

    /** How long the request is; 0 where that cannot be told, or not yet. */
    private int length() {
        if (count < RtuFrame.SHORTEST || count > bytes.length) {
            return 0;
        }
        return switch (bytes[FUNCTION_AT] & 0xFF) {
            case 1, 2, 3, 4, 5, 6, 8 -> 8;
            case 7, 11, 12, 17 -> RtuFrame.SHORTEST;
            case 22 -> 10;
            case 15, 16 -> withData(COUNT_OF_WRITE_AT);
            case 23 -> withData(COUNT_OF_BOTH_AT);
            default -> 0;
        };
    }

    private int withData(int countAt) {
        return count <= countAt ? 0 : countAt + 1 + (bytes[countAt] & 0xFF) + 2;
    }
}
