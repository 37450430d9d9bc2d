package burnerbridge.site;

import java.util.List;

/**
 * How many registers a controller answers in one read.
 *
 * @param otherwise where no range says anything else, 1 to 125
 * @param ranges ranges with limits of their own, higher or lower; none overlaps another
 */
public record ReadLimits(int otherwise, List<InRange> ranges) {
    /** What one read can ask for (Modbus Application Protocol V1.1b3, 6.3 and 6.4). */
    public static final int MOST = 125;

    /** As many as the protocol has room for. */
    public static final ReadLimits NONE = new ReadLimits(MOST, List.of());

    /** A read that takes any address of the range takes at most so many registers. */
    public record InRange(AddressRange range, int most) {
        public InRange {
            requireLimit(most);
        }
    }

    public ReadLimits {
        requireLimit(otherwise);
        ranges = List.copyOf(ranges);
    }

    /** The same for ranges that are so many addresses higher. */
    ReadLimits shiftedBy(int addresses) {
        return new ReadLimits(
                otherwise,
                ranges.stream()
                        .flatMap(limit -> limit.range().shiftedBy(addresses).stream()
                                .map(range -> new InRange(range, limit.most())))
                        .toList());
    }

    private static void requireLimit(int most) {
        if (most < 1 || most > MOST) {
            throw new IllegalArgumentException("a limit is 1 to " + MOST + " registers (was " + most + ")");
        }
    }
}
