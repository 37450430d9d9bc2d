package burnerbridge.model;

import java.util.Locale;

/** How far a reading can be trusted. */
public enum Quality {
    GOOD,
    UNCERTAIN,
    STALE,
    BAD;

    /** The word used in messages, payloads and pages: {@code good}. */
    public String word() {
        return name().toLowerCase(Locale.ROOT);
    }
}
