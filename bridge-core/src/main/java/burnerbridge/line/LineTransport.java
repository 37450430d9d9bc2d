package burnerbridge.line;

/**
 * One Modbus connection with one master. {@link #read} belongs to the line's own thread; {@link #close}
 * may be called from any.
 */
public interface LineTransport extends AutoCloseable {

    /**
     * Does one transaction, connecting first where needed. Returns within connect and reply time-out; of the
     * latter a line without transaction ids may need several while replies to earlier requests may still
     * come.
     */
    Outcome read(ReadRequest request);

    /** Ends the connection for good; a read under way ends within 100 ms. Idempotent. */
    @Override
    void close();
}
