package burnerbridge.poll;

/** The growing pauses of a controller that says that it is busy: 1, 2, 4, 8, then 10 s. */
final class BusyPause {
    private static final long FIRST = 1_000_000_000L;
    static final long LONGEST = 10_000_000_000L;

    private long pause;
    private long until;
    private boolean told;

    /** The first moment at or after a tick at which the controller may be asked. */
    long notBefore(long tick) {
        return pause > 0 && until - tick > 0 ? until : tick;
    }

    /** It is busy; says whether it now has been for so long that it is worth telling. */
    boolean again(long nowTicks) {
        pause = pause == 0 ? FIRST : Math.min(2 * pause, LONGEST);
        until = nowTicks + pause;
        boolean worth = pause == LONGEST && !told;
        told = told || worth;
        return worth;
    }

    /** It is not busy any more; says whether it was told that it is. */
    boolean isOver() {
        boolean was = told;
        pause = 0;
        told = false;
        return was;
    }
}
