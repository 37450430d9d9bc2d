package burnerbridge.poll;

/** The growing pauses between tries to connect a line: 1, 2, 4, then 5 s, for ever. */
final class ConnectPause {
    private static final long FIRST = 1_000_000_000L;
    private static final long LONGEST = 5_000_000_000L;

    private enum State {
        NOT_TRIED,
        CONNECTED,
        FAILING
    }

    private State state = State.NOT_TRIED;
    private long pause = FIRST;
    private long until;

    /** The first moment at or after a tick at which the line may be tried. */
    long notBefore(long tick) {
        return state == State.FAILING && until - tick > 0 ? until : tick;
    }

    /** A try failed; says whether it is the first in a row. */
    boolean failed(long nowTicks) {
        boolean first = state != State.FAILING;
        pause = first ? FIRST : Math.min(2 * pause, LONGEST);
        until = nowTicks + pause;
        state = State.FAILING;
        return first;
    }

    /** The line is connected; says whether it was not before. */
    boolean connected() {
        boolean changed = state != State.CONNECTED;
        state = State.CONNECTED;
        return changed;
    }
}
