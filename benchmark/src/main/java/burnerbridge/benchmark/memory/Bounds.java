package burnerbridge.benchmark.memory;

import java.util.List;

/**
 * How the daemon is started where its memory is limited, with a share of it as the heap, as a container does it, and
 * where it is not. The image has shares of its own and the compiler that takes less, so that it needs no more.
 *
 * @param megabytes that the system lets it have, of 1024 × 1024 bytes; 0 for all there are
 */
record Bounds(int megabytes, int heapPercent) {
    private static final long BYTES = 1 << 20;
    private static final long NO_LIMIT = Long.MAX_VALUE / 2;

    /** The same without a limit, with the heap that Java chooses. */
    Bounds lifted() {
        return new Bounds(0, heapPercent);
    }

    boolean hold() {
        return megabytes > 0;
    }

    long bytes() {
        return hold() ? megabytes * BYTES : NO_LIMIT;
    }

    /** Below some 250 MB Java looks at the one percentage, and above at the other. */
    List<String> options() {
        return hold()
                ? List.of("-XX:MinRAMPercentage=" + heapPercent, "-XX:MaxRAMPercentage=" + heapPercent, "-Xss256k")
                : List.of();
    }

    String text() {
        return hold() ? megabytes + " MB" : "no limit";
    }
}
