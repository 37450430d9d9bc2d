package burnerbridge.control;

import java.io.IOException;
import java.net.ConnectException;
import java.net.SocketTimeoutException;
import java.net.StandardProtocolFamily;
import java.net.UnixDomainSocketAddress;
import java.nio.channels.SocketChannel;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.util.Map;
import java.util.function.Consumer;
import org.jspecify.annotations.Nullable;
import tools.jackson.core.JsonGenerator;

/** A connection to a running bridge. One thread uses it; any may close it. */
public final class ControlClient implements AutoCloseable {
    private final LineChannel lines;
    private final Greeting greeting;

    private ControlClient(LineChannel lines, Greeting greeting) {
        this.lines = lines;
        this.greeting = greeting;
    }

    /**
     * Connects and hears the greeting.
     *
     * @throws NobodyAnswersException where no bridge runs there
     * @throws ControlException where one does but cannot be asked
     */
    public static ControlClient connect(Path socket) throws ControlException {
        LineChannel lines = open(socket);
        try {
            return new ControlClient(lines, Greeting.parse(next(lines)));
        } catch (ControlException e) {
            closeQuietly(lines);
            throw e;
        }
    }

    private static LineChannel open(Path socket) throws ControlException {
        SocketChannel channel = null;
        try {
            Protocol.checkLength(socket);
            channel = SocketChannel.open(StandardProtocolFamily.UNIX);
            channel.connect(UnixDomainSocketAddress.of(socket));
            return new LineChannel(channel);
        } catch (IOException e) {
            closeQuietly(channel);
            if (e instanceof ConnectException || !Files.exists(socket, LinkOption.NOFOLLOW_LINKS)) {
                throw new NobodyAnswersException("no bridge runs with the control socket " + socket, e);
            }
            throw new ControlException(
                    "the running bridge cannot be asked by this user, at " + socket + ": " + e.getMessage(), e);
        }
    }

    private static void closeQuietly(@Nullable AutoCloseable closeable) {
        try {
            if (closeable != null) {
                closeable.close();
            }
        } catch (Exception e) {
            // Nothing was lost with it.
        }
    }

    public Greeting greeting() {
        return greeting;
    }

    /**
     * Asks, and hands on every line of the reply but the last.
     *
     * @throws ControlException where the bridge refuses, takes too long or hangs up
     */
    public void ask(String name, Consumer<JsonGenerator> arguments, Consumer<Map<String, @Nullable Object>> lineOfReply)
            throws ControlException {
        String request = JsonLine.object(json -> {
            json.writeStringProperty("ask", name);
            arguments.accept(json);
        });
        try {
            lines.write(request, Protocol.PATIENCE);
            lines.flush(Protocol.PATIENCE);
        } catch (IOException e) {
            throw new ControlException("the connection to the running bridge ended: " + e.getMessage(), e);
        }
        for (var line = next(lines); !line.containsKey("end"); line = next(lines)) {
            lineOfReply.accept(line);
        }
    }

    private static Map<String, @Nullable Object> next(LineChannel lines) throws ControlException {
        try {
            String line = lines.readLine(Protocol.LONGEST_REPLY_LINE, Protocol.PATIENCE);
            if (line == null) {
                throw new ControlException("the running bridge has ended the connection");
            }
            Map<String, @Nullable Object> members = JsonLine.parse(line);
            if (members.containsKey("error")) {
                throw new ControlException("the running bridge refuses: " + members.get("message"));
            }
            return members;
        } catch (SocketTimeoutException e) {
            throw new ControlException(
                    "the running bridge does not answer within " + Protocol.PATIENCE.toSeconds() + " s", e);
        } catch (IOException | IllegalArgumentException e) {
            throw new ControlException("the connection to the running bridge ended: " + e.getMessage(), e);
        }
    }

    /** Idempotent. */
    @Override
    public void close() {
        closeQuietly(lines);
    }
}
