package burnerbridge.table;

import burnerbridge.model.Stamp;
import java.util.Locale;
import org.jspecify.annotations.Nullable;

/**
 * Whether a controller answers.
 *
 * @param detail a sentence for people; empty where there is nothing to say
 * @param since when it became so; null until the controller was asked for the first time
 */
public record ControllerLink(
        State state, Cause cause, String detail, @Nullable Stamp since) {

    /** Whether the controller answers. */
    public enum State {
        UNKNOWN,
        UP,
        DOWN;

        /** The word used in payloads: {@code up}. */
        public String word() {
            return name().toLowerCase(Locale.ROOT);
        }
    }

    /** Why it does not answer. */
    public enum Cause {
        NONE,
        NOT_ASKED_YET,
        NO_REPLY,
        LINE_DOWN;

        /** The word used in payloads: {@code line-down}. */
        public String word() {
            return name().toLowerCase(Locale.ROOT).replace('_', '-');
        }
    }

    static final ControllerLink AT_START = new ControllerLink(State.UNKNOWN, Cause.NOT_ASKED_YET, "", null);

    public static ControllerLink up(Stamp since) {
        return new ControllerLink(State.UP, Cause.NONE, "", since);
    }

    public static ControllerLink down(Cause cause, String detail, Stamp since) {
        return new ControllerLink(State.DOWN, cause, detail, since);
    }
}
