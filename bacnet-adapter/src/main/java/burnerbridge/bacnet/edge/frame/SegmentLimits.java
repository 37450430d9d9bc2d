package burnerbridge.bacnet.edge.frame;

/** What of segmented requests is taken (ASHRAE 135, 5.4.5). */
public final class SegmentLimits {
    /** Max_Segments_Accepted of the device. */
    public static final int MOST_SEGMENTS = 16;

    static final int WIDEST_WINDOW = 8;
    /** Requests at once, of all peers, and of one. */
    static final int MOST_REQUESTS = 64;

    static final int MOST_OF_PEER = 4;
    /** Four times the time that a segment is waited for. */
    static final long PATIENCE_NANOS = 8_000_000_000L;

    private SegmentLimits() {}
}
