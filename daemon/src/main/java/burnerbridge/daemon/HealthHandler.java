package burnerbridge.daemon;

import burnerbridge.control.Reply;
import burnerbridge.control.Request;
import burnerbridge.control.RequestHandler;
import burnerbridge.health.HealthReport;
import burnerbridge.health.Trouble;
import burnerbridge.health.TroubleJson;
import burnerbridge.values.RowJson;
import java.io.IOException;
import java.util.function.Supplier;

/** Answers {@code {"ask":"health"}} with a line of the whole and one of each trouble, of which there are bounds. */
final class HealthHandler implements RequestHandler {
    static final String NAME = "health";

    private static final int MOST = 1_000;

    private final Supplier<HealthReport> report;

    HealthHandler(Supplier<HealthReport> report) {
        this.report = report;
    }

    @Override
    public void answer(Request request, Reply reply) throws IOException {
        HealthReport now = report.get();
        reply.line(json -> {
            json.writeBooleanProperty("alive", now.alive());
            json.writeBooleanProperty("ready", now.ready());
            json.writeBooleanProperty("degraded", now.degraded());
            json.writeNumberProperty("troubles", now.troubles().size());
            json.writeStringProperty("startedAt", RowJson.time(now.startedAt().wall()));
        });
        for (Trouble trouble : now.troubles().stream().limit(MOST).toList()) {
            reply.line(json -> TroubleJson.write(json, trouble));
        }
    }
}
