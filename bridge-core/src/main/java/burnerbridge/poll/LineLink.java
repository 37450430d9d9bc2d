package burnerbridge.poll;

import burnerbridge.model.Stamp;
import org.jspecify.annotations.Nullable;

/**
 * Whether a line is connected.
 *
 * @param why it is not, for people; empty where it is, or was not tried yet
 * @param since when it became so; null until it was tried for the first time
 */
public record LineLink(State state, String why, @Nullable Stamp since) {

    /** Whether it is connected. */
    public enum State {
        NOT_TRIED,
        CONNECTED,
        DOWN
    }

    static final LineLink AT_START = new LineLink(State.NOT_TRIED, "", null);

    static LineLink up(Stamp since) {
        return new LineLink(State.CONNECTED, "", since);
    }

    static LineLink down(String why, @Nullable Stamp since) {
        return new LineLink(State.DOWN, why, since);
    }
}
