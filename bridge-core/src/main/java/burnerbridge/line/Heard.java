package burnerbridge.line;

/** What was heard on a line besides replies to its requests. Nothing of it is used. */
public enum Heard {
    /** A whole request that is not ours, counted for the unit that it asks. */
    REQUEST,
    /** One more reply of the unit that had answered already. */
    SECOND_REPLY,
    /** A reply of the unit whose time to reply had run out, in this transaction or shortly before. */
    LATE_REPLY,
    /** A whole reply that belongs to no request of ours. */
    OTHERS_REPLY,
    /** Bytes that are no frame, while nobody was asked; of the line as a whole. */
    NOISE
}
