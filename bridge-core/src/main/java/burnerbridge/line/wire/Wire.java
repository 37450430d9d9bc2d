package burnerbridge.line.wire;

import java.io.IOException;

/**
 * A way for bytes that is opened once: a socket or a serial port. It belongs to the line's own thread;
 * any thread may close it, and what waits on it then ends within 100 ms.
 */
public interface Wire extends AutoCloseable {

    void open() throws IOException;

    /** How many bytes wait that nobody has read. */
    int waiting() throws IOException;

    /** Hands over a whole frame, without waiting until it is on the wire. */
    void send(byte[] frame) throws IOException;

    /**
     * Reads what has come, waiting for the first byte for one slice of the time that is left.
     *
     * @return how many bytes were put into {@code buffer} at {@code from}: 0 to {@code most}
     * @throws IOException where the wire has ended
     */
    int read(byte[] buffer, int from, int most, Deadline deadline) throws IOException;

    /**
     * Makes sure after any doubt that nothing of it is left to be read.
     *
     * @return whether it is so; otherwise the wire must be closed and another opened
     */
    boolean drain() throws IOException;

    /** Idempotent. */
    @Override
    void close();
}
