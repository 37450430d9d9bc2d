package burnerbridge.line;

/** In which way a reply was not the reply. Each points at another thing to look at on the line. */
public enum Fault {
    /** The shape of a reply, and a checksum that is not its own. */
    CHECKSUM,
    /** As {@link #CHECKSUM}, and up to twice as long as one reply: as two units do that answer at once. */
    OVERLAID,
    /** The right reply but for its first one to three bytes, which are missing or changed. */
    BEGINNING_LOST,
    /** A whole reply of another unit, or whole frames of somebody else's conversation. */
    UNIT,
    /** A whole reply to another function. */
    FUNCTION,
    /** A whole reply to a write of other registers, or of another value. */
    OTHER_WRITE,
    /** A reply with another number of bytes than was asked for, or one that was cut off. */
    LENGTH,
    /** The request itself came back. */
    ECHO,
    /** The right reply, behind bytes that belong to nothing. */
    STRAY_BYTES,
    /** Bytes that are no frame at all, or one of another transaction or protocol. */
    FRAMING,
    /** The connection or port ended before or inside the reply. */
    ENDED
}
