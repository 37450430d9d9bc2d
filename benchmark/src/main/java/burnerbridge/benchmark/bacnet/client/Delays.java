package burnerbridge.benchmark.bacnet.client;

import java.util.Arrays;

/** Times in nanoseconds, as many as come. */
public final class Delays {
    private long[] nanos = new long[1 << 12];
    private int count;

    public void add(long delay) {
        if (count == nanos.length) {
            nanos = Arrays.copyOf(nanos, 2 * count);
        }
        nanos[count++] = delay;
    }

    public void addAll(Delays others) {
        for (int i = 0; i < others.count; i++) {
            add(others.nanos[i]);
        }
    }

    public int count() {
        return count;
    }

    /** How many took longer. */
    public int longerThan(long limit) {
        int longer = 0;
        for (int i = 0; i < count; i++) {
            longer += nanos[i] > limit ? 1 : 0;
        }
        return longer;
    }

    /** The least within which so many of a thousand were; 0 where there is none at all. */
    public long within(int ofThousand) {
        if (count == 0) {
            return 0;
        }
        long[] sorted = Arrays.copyOf(nanos, count);
        Arrays.sort(sorted);
        return sorted[Math.max(0, (int) Math.ceil(count * (ofThousand / 1000.0)) - 1)];
    }
}
