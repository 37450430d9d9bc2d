package burnerbridge.poll.pace;

import java.time.Duration;

/** The growing pauses between tries to connect a line: 1, 2, 4, then 5 s, for ever. */
public final class ConnectPause {
    private enum State {
        NOT_TRIED,
        CONNECTED,
        FAILING
    }

    private final Pause pause = new Pause(Duration.ofSeconds(5));
    private State state = State.NOT_TRIED;

    /** The first moment at or after a tick at which the line may be tried. */
    public long notBefore(long tick) {
        return pause.notBefore(tick);
    }

    /** Whether the last try went well. */
    public boolean isConnected() {
        return state == State.CONNECTED;
    }

    /** A try failed; says whether it is the first in a row. */
    public boolean failed(long nowTicks) {
        boolean first = state != State.FAILING;
        state = State.FAILING;
        pause.grow(nowTicks);
        return first;
    }

    /** The line is connected; says whether it was not before. */
    public boolean connected() {
        boolean changed = state != State.CONNECTED;
        state = State.CONNECTED;
        pause.end();
        return changed;
    }
}
