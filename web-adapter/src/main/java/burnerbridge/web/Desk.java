package burnerbridge.web;

import burnerbridge.health.HealthJson;
import burnerbridge.health.HealthReport;
import burnerbridge.model.Stamp;
import burnerbridge.web.access.Doorkeeper;
import burnerbridge.web.http.Answer;
import burnerbridge.web.http.Port;
import burnerbridge.web.http.Request;
import burnerbridge.web.metrics.MetricsPage;
import java.net.InetAddress;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.TimeUnit;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/** Knows the two pages. Who may ask is asked first of all, so that a stranger learns nothing else. */
final class Desk implements Port.Answering {
    private static final Logger LOG = LoggerFactory.getLogger(Desk.class);
    private static final Set<String> METHODS = Set.of("GET", "HEAD");
    private static final long BETWEEN_TELLINGS = TimeUnit.MINUTES.toNanos(1);

    private final Pages pages;
    private final MetricsPage metrics;
    private final Doorkeeper doorkeeper;
    private final WebMetrics counts;
    private boolean toldAFault;
    private long toldAt;

    Desk(Pages pages, Doorkeeper doorkeeper, WebMetrics counts) {
        this.pages = pages;
        this.metrics = new MetricsPage(pages.metrics());
        this.doorkeeper = doorkeeper;
        this.counts = counts;
    }

    @Override
    public Answer answer(Request request, InetAddress peer, Stamp now) {
        Optional<Answer> refused = doorkeeper.refusal(request, peer, now);
        return refused.isPresent() ? refused.get() : page(request, now);
    }

    @Override
    public void answered(int status) {
        counts.answered(status);
    }

    private Answer page(Request request, Stamp now) {
        boolean isHealth = request.target().equals("/health");
        if (!isHealth && !request.target().equals("/metrics")) {
            return Answer.refusal(404, "there are /health and /metrics");
        }
        if (!METHODS.contains(request.method())) {
            return Answer.refusal(405, "only GET and HEAD").with("Allow", "GET, HEAD");
        }
        if (request.hasBody()) {
            return Answer.refusal(413, "no content is taken");
        }
        try {
            return isHealth ? health() : metrics.answer(request.single("accept").orElse(""));
        } catch (RuntimeException e) {
            tellFault(request.target(), e, now);
            return Answer.refusal(500, "a fault of the program; its log says more");
        }
    }

    private Answer health() {
        HealthReport report = pages.health().get();
        return Answer.text(report.alive() ? 200 : 503, "application/json", HealthJson.of(report) + "\n");
    }

    private void tellFault(String target, RuntimeException e, Stamp now) {
        if (!toldAFault || now.ticks() - toldAt >= BETWEEN_TELLINGS) {
            LOG.error("web: {} cannot be made", target, e);
            toldAFault = true;
            toldAt = now.ticks();
        } else {
            LOG.debug("web: {} cannot be made", target, e);
        }
    }
}
