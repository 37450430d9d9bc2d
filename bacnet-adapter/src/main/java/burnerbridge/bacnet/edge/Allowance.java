package burnerbridge.bacnet.edge;

/**
 * So many a second, and as many at once after a rest. Not safe for several threads.
 */
final class Allowance {
    private static final double SECOND = 1e9;

    private final double perSecond;
    private double there;
    private long at;

    Allowance(int perSecond, long now) {
        this.perSecond = perSecond;
        this.there = perSecond;
        this.at = now;
    }

    boolean take(long now) {
        refill(now);
        if (there < 1) {
            return false;
        }
        there--;
        return true;
    }

    private void refill(long now) {
        there = Math.min(perSecond, there + (now - at) * perSecond / SECOND);
        at = now;
    }

    /** Nanoseconds until one can be taken. */
    long untilNext(long now) {
        refill(now);
        return there >= 1 ? 0 : (long) Math.ceil((1 - there) * SECOND / perSecond);
    }

    boolean isRested(long now) {
        refill(now);
        return there >= perSecond;
    }
}
