package burnerbridge.control;

import java.io.IOException;
import java.net.SocketTimeoutException;
import java.nio.charset.CharacterCodingException;
import java.util.HashMap;
import java.util.Map;
import java.util.TreeSet;
import java.util.function.Consumer;
import java.util.function.Supplier;
import org.jspecify.annotations.Nullable;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import tools.jackson.core.JsonGenerator;

/** One client from its greeting to its end, on a thread of its own. */
final class ClientSession {
    private static final Logger LOG = LoggerFactory.getLogger(ClientSession.class);

    private final LineChannel lines;
    private final Greeting greeting;
    private final Map<String, Supplier<RequestHandler>> handlers;
    private final Limits limits;
    private final Map<String, RequestHandler> own = new HashMap<>();

    ClientSession(LineChannel lines, Greeting greeting, Map<String, Supplier<RequestHandler>> handlers, Limits limits) {
        this.lines = lines;
        this.greeting = greeting;
        this.handlers = handlers;
        this.limits = limits;
    }

    /** Returns when the client has hung up or was hung up on. */
    void serve() {
        try (lines) {
            say(greeting.line());
            answerAll();
        } catch (IOException e) {
            LOG.debug("control client: {}", e.toString());
        }
    }

    private void answerAll() throws IOException {
        try {
            for (String line = read(); line != null; line = read()) {
                answer(Request.parse(line));
            }
        } catch (RequestException e) {
            LOG.debug("control client: refused: {}", e.getMessage());
            say(error(e.code(), e.getMessage()));
        } catch (RuntimeException e) {
            // A defect of ours: the connection ends by it, nothing else.
            LOG.error("control client: a request could not be answered", e);
            say(error("defect", "it could not answer because of an error of its own; its log says more"));
        }
    }

    private @Nullable String read() throws IOException, RequestException {
        try {
            return lines.readLine(Protocol.LONGEST_REQUEST, limits.idle());
        } catch (SocketTimeoutException e) {
            throw new RequestException(
                    "idle", "nothing was asked for " + limits.idle().toSeconds() + " s");
        } catch (LineChannel.TooLongException e) {
            throw new RequestException("too-long", "a request has at most " + Protocol.LONGEST_REQUEST + " bytes");
        } catch (CharacterCodingException e) {
            throw new RequestException("no-request", "a request is one JSON object on a line, in UTF-8");
        }
    }

    private void answer(Request request) throws IOException, RequestException {
        Supplier<RequestHandler> maker = handlers.get(request.name());
        if (maker == null) {
            throw new RequestException(
                    "unknown-request", "it knows no such request; it knows " + new TreeSet<>(handlers.keySet()));
        }
        own.computeIfAbsent(request.name(), name -> maker.get()).answer(request, this::line);
        line(json -> json.writeBooleanProperty("end", true));
        lines.flush(limits.patience());
    }

    private void line(Consumer<JsonGenerator> members) throws IOException {
        lines.write(JsonLine.object(members), limits.patience());
    }

    private void say(String line) throws IOException {
        lines.write(line, limits.patience());
        lines.flush(limits.patience());
    }

    static String error(String code, @Nullable String message) {
        return JsonLine.object(json -> {
            json.writeStringProperty("error", code);
            json.writeStringProperty("message", message == null ? "" : message);
        });
    }
}
