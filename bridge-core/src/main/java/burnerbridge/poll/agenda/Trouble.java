package burnerbridge.poll.agenda;

/**
 * Keeps silences from adding up. When several controllers die at once, nobody knows which. So after each silence there
 * is a round of all reads that were due when it ended: first those of controllers that were heard since the first of
 * them fell silent, then those of others that are not silent, and then only any other. So whoever lives is delayed by
 * one time-out for each of the dead in the first round, and by one alone afterwards; and nothing waits for more than a
 * round.
 */
public final class Trouble {
    /** What is asked when nothing of a round is left. */
    static final int LAST = 2;

    private long since;
    private boolean rounds;
    private long roundOf;

    public Trouble(long now) {
        this.since = now;
    }

    /**
     * A request that left at a tick was not answered.
     *
     * @param first whether no other controller had been silent before without being lost by now
     */
    public void silent(boolean first, long askedAt, long now) {
        since = first ? askedAt : since;
        rounds = true;
        roundOf = now;
    }

    /** When a read has its turn: 0 is first. */
    int rank(Schedule read) {
        if (!rounds || read.due() - roundOf > 0 || read.controller().health().isSilent()) {
            return LAST;
        }
        return read.controller().isHeardSince(since) ? 0 : 1;
    }

    /** Nothing of the round is left. */
    void roundIsOver() {
        rounds = false;
    }
}
