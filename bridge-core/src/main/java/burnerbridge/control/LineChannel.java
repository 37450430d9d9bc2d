package burnerbridge.control;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.net.SocketTimeoutException;
import java.nio.ByteBuffer;
import java.nio.channels.AsynchronousCloseException;
import java.nio.channels.ClosedSelectorException;
import java.nio.channels.SelectionKey;
import java.nio.channels.Selector;
import java.nio.channels.SocketChannel;
import java.nio.charset.StandardCharsets;
import java.time.Duration;
import org.jspecify.annotations.Nullable;

/**
 * Lines over a socket, with a bound on every wait and on every line. One thread uses it; any may close it,
 * and what waits then ends at once.
 */
final class LineChannel implements AutoCloseable {
    private static final int BUFFER = 32 * 1024;

    private final SocketChannel channel;
    private final Selector selector;
    private final SelectionKey key;
    private final ByteBuffer in = ByteBuffer.allocate(BUFFER).flip();
    private final ByteBuffer out = ByteBuffer.allocate(BUFFER);

    /** Owns the channel from now on. */
    LineChannel(SocketChannel channel) throws IOException {
        this.channel = channel;
        channel.configureBlocking(false);
        this.selector = Selector.open();
        this.key = channel.register(selector, 0);
    }

    /** A line is longer than allowed. */
    static final class TooLongException extends IOException {
        private static final long serialVersionUID = 1L;

        TooLongException(int most) {
            super("a line has at most " + most + " bytes");
        }
    }

    /**
     * The next line, without its end.
     *
     * @param most bytes
     * @return null where the other end has hung up; a line without an end is none
     * @throws SocketTimeoutException where nothing comes for so long
     * @throws java.nio.charset.CharacterCodingException where it is not UTF-8
     */
    @Nullable
    String readLine(int most, Duration patience) throws IOException {
        ByteArrayOutputStream line = new ByteArrayOutputStream();
        while (true) {
            while (in.hasRemaining()) {
                byte next = in.get();
                if (next == '\n') {
                    return StandardCharsets.UTF_8
                            .newDecoder()
                            .decode(ByteBuffer.wrap(line.toByteArray()))
                            .toString();
                }
                if (line.size() == most) {
                    throw new TooLongException(most);
                }
                line.write(next);
            }
            if (!fill(patience)) {
                return null;
            }
        }
    }

    private boolean fill(Duration patience) throws IOException {
        in.clear();
        int count = channel.read(in);
        if (count == 0) {
            await(SelectionKey.OP_READ, patience);
            count = channel.read(in);
        }
        in.flip();
        return count >= 0;
    }

    /** Puts a line into the buffer, and what the buffer has no room for on its way. */
    void write(String line, Duration patience) throws IOException {
        ByteBuffer bytes = ByteBuffer.wrap((line + "\n").getBytes(StandardCharsets.UTF_8));
        while (bytes.hasRemaining()) {
            if (!out.hasRemaining()) {
                flush(patience);
            }
            int count = Math.min(out.remaining(), bytes.remaining());
            out.put(bytes.slice(bytes.position(), count));
            bytes.position(bytes.position() + count);
        }
    }

    /** @throws SocketTimeoutException where the other end takes nothing for so long */
    void flush(Duration patience) throws IOException {
        out.flip();
        try {
            while (out.hasRemaining()) {
                if (channel.write(out) == 0) {
                    await(SelectionKey.OP_WRITE, patience);
                }
            }
        } finally {
            out.clear();
        }
    }

    private void await(int operation, Duration patience) throws IOException {
        try {
            key.interestOps(operation);
            int ready = selector.select(Math.max(1, patience.toMillis()));
            selector.selectedKeys().clear();
            if (!channel.isOpen()) {
                throw new AsynchronousCloseException();
            }
            if (ready == 0) {
                throw new SocketTimeoutException("nothing for " + patience.toSeconds() + " s");
            }
        } catch (ClosedSelectorException | java.nio.channels.CancelledKeyException e) {
            throw new IOException("closed", e);
        }
    }

    /** Idempotent. */
    @Override
    public void close() throws IOException {
        selector.close();
        channel.close();
    }
}
