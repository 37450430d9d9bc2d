package burnerbridge.bacnet.edge.service;

import java.util.Locale;

/** What an answer is. */
public enum AnswerKind {
    /** BVLC-Result with a refusal (ASHRAE 135, J.2.1). */
    LINK_REFUSAL,
    ERROR,
    REJECT,
    ABORT,
    /** A part of a request was taken, or is missing. */
    SEGMENT_ACK,
    /** The answer to a Who-Is. */
    I_AM,
    /** A write was admitted. */
    SIMPLE_ACK;

    /** Whether something was refused, which deserves a line in the log. */
    public boolean isRefusal() {
        return this != I_AM && this != SEGMENT_ACK && this != SIMPLE_ACK;
    }

    /** The word used in messages: {@code link-refusal}. */
    public String word() {
        return name().toLowerCase(Locale.ROOT).replace('_', '-');
    }
}
