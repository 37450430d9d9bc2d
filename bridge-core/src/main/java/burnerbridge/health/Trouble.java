package burnerbridge.health;

import burnerbridge.model.Stamp;
import java.util.Locale;
import org.jspecify.annotations.Nullable;

/**
 * Something that is wrong right now.
 *
 * @param place where to look for its cause
 * @param about what it is about, as the log names it: {@code line annex}, {@code mqtt}
 * @param seen what is seen, for people, without a full stop
 * @param lookAt what to look at or to do, without a full stop; empty where there is nothing to say
 * @param since when it became so; null where that is not known
 */
public record Trouble(
        Place place,
        String about,
        String seen,
        String lookAt,
        @Nullable Stamp since,
        Weight weight) {

    /** What a trouble means for the whole. */
    public enum Weight {
        /** Worth knowing; the bridge does all that it should. */
        NOTICE,
        /** Something of what the bridge should do, it does not. */
        DEGRADED,
        /** A whole side of the building has nothing. */
        NOT_READY;

        /** As people and programs read it: {@code not-ready}. */
        public String word() {
            return name().toLowerCase(Locale.ROOT).replace('_', '-');
        }
    }

    public Trouble {
        if (about.isBlank() || seen.isBlank()) {
            throw new IllegalArgumentException("a trouble says what it is about and what is seen");
        }
    }

    /** The whole sentence, for people: what it is about, what is seen, and what to look at. */
    public String sentence() {
        return about + ": " + seen + (lookAt.isEmpty() ? "" : "; look at " + lookAt);
    }
}
