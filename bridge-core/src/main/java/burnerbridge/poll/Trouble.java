package burnerbridge.poll;

/**
 * Keeps silences from adding up. When several controllers die at once, nobody knows which; so those that were heard
 * since the first of them fell silent go first after each silence, for one round: all their reads that were due when
 * it ended. So each silence delays them by itself alone, and nothing waits for more than a round.
 */
final class Trouble {
    private long since;
    private boolean rounds;
    private long roundOf;

    Trouble(long now) {
        this.since = now;
    }

    /**
     * A request that left at a tick was not answered.
     *
     * @param first whether no other controller had been silent before without being lost by now
     */
    void silent(boolean first, long askedAt, long now) {
        since = first ? askedAt : since;
        rounds = true;
        roundOf = now;
    }

    /** Whether a read belongs to the round of those that go first. */
    boolean goesFirst(Schedule read) {
        return rounds && read.controller.isHeardSince(since) && read.due() - roundOf <= 0;
    }

    /** There are no more of those. */
    void roundIsOver() {
        rounds = false;
    }
}
