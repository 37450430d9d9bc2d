package burnerbridge.write.ask;

import java.util.Locale;

/** What is asked before anything is written, in this order; the first no ends it. */
public enum Question {
    KNOWN_POINT,
    PERMIT,
    ROLE,
    PROTECTED,
    APPROVED,
    SOURCE,
    FRESH,
    TYPE,
    RANGE,
    STEP,
    INTERVAL,
    BUDGET,
    IDENTITY,
    ANSWERING,
    /** Asked last: whether the record of the write can be kept. */
    RECORD;

    /** The code in answers and in the audit: {@code known-point}. */
    public String code() {
        return name().toLowerCase(Locale.ROOT).replace('_', '-');
    }
}
