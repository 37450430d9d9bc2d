package burnerbridge.model;

import java.util.Locale;

/** Why a reading has its quality. The quality follows from the reason, so that the two never disagree. */
public enum Reason {
    /** Decoded from a checked reply that is younger than its allowance. */
    NONE(Quality.GOOD),
    /** A state number that the point list has no text for. */
    UNKNOWN_STATE(Quality.UNCERTAIN),
    /** The point means nothing in the controller's present state. */
    NOT_APPLICABLE(Quality.UNCERTAIN),
    /** The last good value is too old: the controller does not answer. */
    NO_REPLY(Quality.STALE),
    /** The last good value is too old: the whole line is down. */
    LINE_DOWN(Quality.STALE),
    /** Nothing was read since the start. */
    NOT_READ_YET(Quality.BAD),
    /** The controller answers with an exception for these registers. */
    REFUSED(Quality.BAD),
    /** The registers hold a pattern that says that no sensor is there. */
    NO_SENSOR(Quality.BAD),
    OVER_RANGE(Quality.BAD),
    UNDER_RANGE(Quality.BAD),
    /** NaN or an infinity. */
    NOT_A_NUMBER(Quality.BAD),
    /** An impossible pattern for the format. */
    UNREADABLE(Quality.BAD);

    private final Quality quality;

    Reason(Quality quality) {
        this.quality = quality;
    }

    public Quality quality() {
        return quality;
    }

    /** The word used in messages, payloads and pages: {@code not-read-yet}. */
    public String word() {
        return name().toLowerCase(Locale.ROOT).replace('_', '-');
    }
}
