package burnerbridge.line;

import burnerbridge.line.wire.Wire;
import java.io.IOException;
import java.util.function.Supplier;
import org.jspecify.annotations.Nullable;

/**
 * The one wire of a line that is open at a time. Opening and dropping belong to the line's own thread; any
 * thread may close it for good, and what waits on the wire then ends.
 */
final class Connection {
    private final Supplier<Wire> wires;
    private @Nullable Wire wire;

    private final Object closing = new Object();
    private boolean closed;
    /** What {@link #close} ends from another thread, opening or open. */
    private @Nullable Wire closable;

    Connection(Supplier<Wire> wires) {
        this.wires = wires;
    }

    /** The wire that is open, if one is. */
    @Nullable
    Wire kept() {
        return wire;
    }

    Wire open() throws IOException {
        Wire next = wires.get();
        synchronized (closing) {
            if (closed) {
                throw new IOException("this line was closed");
            }
            closable = next;
        }
        next.open();
        wire = next;
        return next;
    }

    /** The next request needs another wire. */
    void drop() {
        wire = null;
        closeWire();
    }

    private void closeWire() {
        synchronized (closing) {
            if (closable != null) {
                closable.close();
                closable = null;
            }
        }
    }

    boolean isClosed() {
        synchronized (closing) {
            return closed;
        }
    }

    /** Idempotent. */
    void close() {
        synchronized (closing) {
            closed = true;
        }
        closeWire();
    }
}
