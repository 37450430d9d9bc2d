package burnerbridge.benchmark.lines;

import java.util.Arrays;

/** When reads came in. One thread notes them; any may ask. */
final class Arrivals {
    /** A gap longer than this is late beyond what a tenth of the interval allows. */
    private static final long LATE = Load.EVERY.toNanos() * 11 / 10;

    private final Load load;
    private final long[] last;
    private final boolean[] seen;
    private int seenCount;
    private long reads;
    private long late;
    private long longestGap;

    /**
     * What came in since it was asked to watch.
     *
     * @param late how many reads came more than a tenth of the interval late
     * @param longestGap nanoseconds between two reads of the same registers of the same line
     */
    record Seen(long reads, long late, long longestGap) {}

    Arrivals(Load load) {
        this.load = load;
        this.last = new long[load.readsASecond()];
        this.seen = new boolean[last.length];
    }

    /** @param address the first of the read */
    synchronized void note(int line, int address, long now) {
        int place = line * load.reads() + load.read(address);
        if (seen[place]) {
            long gap = now - last[place];
            longestGap = Math.max(longestGap, gap);
            late += gap > LATE ? 1 : 0;
        } else {
            seen[place] = true;
            seenCount++;
        }
        last[place] = now;
        reads++;
    }

    /** Whether every read of every line came at least once. */
    synchronized boolean isComplete() {
        return seenCount == seen.length;
    }

    /** Forgets what was seen; a gap that is open now counts as beginning now. */
    synchronized void watchFrom(long now) {
        reads = 0;
        late = 0;
        longestGap = 0;
        Arrays.fill(last, now);
    }

    /** Gaps that are still open count as ending now. */
    synchronized Seen seenUntil(long now) {
        long open = Arrays.stream(last).map(tick -> now - tick).max().orElse(0);
        return new Seen(reads, late, Math.max(longestGap, open));
    }
}
