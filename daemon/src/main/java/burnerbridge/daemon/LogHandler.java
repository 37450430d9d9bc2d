package burnerbridge.daemon;

import burnerbridge.control.Reply;
import burnerbridge.control.Request;
import burnerbridge.control.RequestHandler;
import burnerbridge.daemon.log.RecentLines;
import java.io.IOException;
import java.util.List;
import java.util.Optional;

/** Answers {@code {"ask":"log"}} with the newest lines of the log, the oldest first, a line each. */
final class LogHandler implements RequestHandler {
    static final String NAME = "log";

    private final Optional<RecentLines> recent;

    LogHandler(Optional<RecentLines> recent) {
        this.recent = recent;
    }

    @Override
    public void answer(Request request, Reply reply) throws IOException {
        for (String line : recent.map(RecentLines::all).orElse(List.of())) {
            reply.line(json -> json.writeStringProperty("line", line));
        }
    }
}
