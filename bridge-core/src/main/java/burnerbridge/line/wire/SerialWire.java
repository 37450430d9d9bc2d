package burnerbridge.line.wire;

import burnerbridge.model.BridgeClock;
import burnerbridge.site.LineDefinition.Serial;
import com.fazecast.jSerialComm.SerialPort;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.function.LongConsumer;
import org.jspecify.annotations.Nullable;

/**
 * One serial port. The library blocks in native code, so that its waits are slices of 100 ms; and a
 * descriptor that is closed while another thread reads it may already be somebody else's, so that whoever
 * closes the port waits for the slice to end.
 */
public final class SerialWire implements Wire {
    private static final int SLICE_MILLIS = 100;
    private static final long POLL_NANOS = 1_000_000;
    private static final Path LOCK_FILES = Path.of("/run/lock");
    private static final Duration LONGEST_DRAIN = Duration.ofMillis(500);

    private final Serial settings;
    private final Duration quiet;
    private final BridgeClock clock;
    private final LongConsumer pause;

    /** Held while the port is used, and while it is closed. */
    private final Object use = new Object();

    private volatile boolean closed;
    private volatile @Nullable SerialPort port;
    private @Nullable PortLock lock;

    /** @param pause lets at most so many nanoseconds pass */
    public SerialWire(Serial settings, WireTime time, BridgeClock clock, LongConsumer pause) {
        this.settings = settings;
        this.quiet = time.quiet();
        this.clock = clock;
        this.pause = pause;
    }

    @Override
    public void open() throws IOException {
        synchronized (use) {
            if (closed) {
                throw new IOException("this line was closed");
            }
            // Asked here, since the library would take another port of the same last name.
            if (!Files.exists(Path.of(settings.port()))) {
                throw new IOException("there is no such port");
            }
            PortLock own = new PortLock(LOCK_FILES, Path.of(settings.port()).toRealPath());
            own.check();
            port = SerialPorts.open(settings, SLICE_MILLIS);
            lock = own;
            own.take();
        }
    }

    private SerialPort openPort() throws IOException {
        SerialPort open = port;
        if (open == null || closed) {
            throw new IOException("the port was closed");
        }
        return open;
    }

    private static int orGone(int result) throws IOException {
        if (result < 0) {
            throw new IOException("the port is gone");
        }
        return result;
    }

    @Override
    public int waiting() throws IOException {
        synchronized (use) {
            return orGone(openPort().bytesAvailable());
        }
    }

    /** Does not wait until the bytes have left: a fast reply comes while they do. */
    @Override
    public void send(byte[] frame) throws IOException {
        synchronized (use) {
            int written = orGone(openPort().writeBytes(frame, frame.length));
            if (written < frame.length) {
                throw new IOException("the port took only " + written + " of " + frame.length + " bytes");
            }
        }
    }

    @Override
    public int read(byte[] buffer, int from, int most, Deadline deadline) throws IOException {
        if (deadline.sliceMillis(clock) < SLICE_MILLIS) {
            return poll(buffer, from, most, deadline);
        }
        synchronized (use) {
            return orGone(openPort().readBytes(buffer, most, from));
        }
    }

    /** The port itself can only wait for tenths of a second; what is shorter is asked for now and then. */
    private int poll(byte[] buffer, int from, int most, Deadline deadline) throws IOException {
        while (waiting() == 0) {
            if (deadline.isOver(clock)) {
                return 0;
            }
            pause.accept(POLL_NANOS);
        }
        synchronized (use) {
            return orGone(openPort().readBytes(buffer, most, from));
        }
    }

    /** Reads until nothing has come for a while, and forgets what the driver still had to send. */
    @Override
    public boolean drain() throws IOException {
        byte[] forgotten = new byte[256];
        Deadline end = Deadline.after(LONGEST_DRAIN, clock);
        while (!end.isOver(clock)) {
            if (read(forgotten, 0, forgotten.length, Deadline.after(quiet, clock)) == 0) {
                synchronized (use) {
                    return openPort().flushIOBuffers();
                }
            }
        }
        return false;
    }

    @Override
    public void close() {
        closed = true;
        endSlice();
        synchronized (use) {
            if (port != null) {
                port.closePort();
            }
            if (lock != null) {
                lock.release();
            }
        }
    }

    /** Ends the slice at once where the driver allows it; otherwise it ends by itself. */
    private void endSlice() {
        SerialPort open = port;
        if (open != null) {
            open.setComPortTimeouts(SerialPort.TIMEOUT_NONBLOCKING, 0, 0);
        }
    }
}
