package burnerbridge.benchmark.memory;

import java.util.List;

/**
 * How the daemon is started where its memory is limited, as its container does it, and where it is not.
 *
 * @param megabytes that the system lets it have, of 1024 × 1024 bytes; 0 for all there are
 * @param whenLimited options of Java where there is a limit, from which Java takes its heap
 */
record Bounds(int megabytes, List<String> whenLimited) {
    private static final long BYTES = 1 << 20;
    private static final long NO_LIMIT = Long.MAX_VALUE / 2;

    Bounds {
        whenLimited = List.copyOf(whenLimited);
    }

    /** The same without a limit, with what Java chooses by itself. */
    Bounds lifted() {
        return new Bounds(0, whenLimited);
    }

    boolean hold() {
        return megabytes > 0;
    }

    long bytes() {
        return hold() ? megabytes * BYTES : NO_LIMIT;
    }

    List<String> options() {
        return hold() ? whenLimited : List.of();
    }

    String text() {
        return hold() ? megabytes + " MB" : "no limit";
    }
}
