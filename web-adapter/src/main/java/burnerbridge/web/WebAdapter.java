package burnerbridge.web;

import burnerbridge.health.HealthSource;
import burnerbridge.health.Place;
import burnerbridge.health.Trouble;
import burnerbridge.measure.MetricSink;
import burnerbridge.measure.MetricSource;
import burnerbridge.model.BridgeClock;
import burnerbridge.model.Stamp;
import burnerbridge.secret.SecretException;
import burnerbridge.site.WebSettings;
import burnerbridge.web.access.Doorkeeper;
import burnerbridge.web.access.Token;
import burnerbridge.web.http.Port;
import java.io.IOException;
import java.net.InetSocketAddress;
import java.util.Map;
import java.util.concurrent.atomic.AtomicBoolean;
import java.util.function.Consumer;
import org.jspecify.annotations.Nullable;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * Serves {@code /health} and {@code /metrics} to {@code GET} and {@code HEAD}, and refuses everything else.
 *
 * <p>{@code /health} has status 200 while the bridge is alive and 503 when a part of it is stalled. One that is merely
 * not ready has 200 too: whatever restarts a container on 503 would make a loop of a broker that is away.
 *
 * <p>One thread does all of it, so that no number of clients takes more; see {@link Port} for the bounds.
 */
public final class WebAdapter implements AutoCloseable, MetricSource, HealthSource {
    private static final Logger LOG = LoggerFactory.getLogger(WebAdapter.class);

    private final WebSettings settings;
    private final BridgeClock clock;
    private final Token token;
    private final WebMetrics counts = new WebMetrics();
    private final Port port;
    private final AtomicBoolean started = new AtomicBoolean();
    private volatile @Nullable Stamp closedByAFault;

    public WebAdapter(WebSettings settings, Pages pages, BridgeClock clock) {
        this(settings, pages, clock, System.getenv());
    }

    WebAdapter(WebSettings settings, Pages pages, BridgeClock clock, Map<String, String> environment) {
        this.settings = settings;
        this.clock = clock;
        this.token = new Token(settings, environment);
        Desk desk = new Desk(pages, new Doorkeeper(settings, token), counts);
        this.port = new Port(new InetSocketAddress(settings.address(), settings.port()), desk, clock);
    }

    /**
     * Opens the port. Once only.
     *
     * @throws WebStartException where the address or the port cannot be had, or the token cannot be read
     */
    public void start() throws WebStartException {
        if (!started.compareAndSet(false, true)) {
            throw new IllegalStateException("a web adapter starts once");
        }
        try {
            token.read();
        } catch (SecretException e) {
            throw new WebStartException("web: no port is opened: " + e.getMessage(), e);
        }
        try {
            port.open(this::ended);
        } catch (IOException e) {
            throw new WebStartException(StartFailure.sentence(settings, e), e);
        }
        LOG.info(
                "web: /health and /metrics at {}:{}{}",
                settings.bind(),
                port.number(),
                token.isAsked() ? ", for those who show the token" : "");
    }

    /** The port that is open; the one that the system chose where the settings say 0. */
    public int port() {
        return port.number();
    }

    private void ended(Throwable fault) {
        closedByAFault = clock.now();
        LOG.error("web: the port is closed by a fault", fault);
    }

    @Override
    public void measure(MetricSink sink) {
        counts.measure(sink);
        port.measure(sink);
    }

    @Override
    public void tell(Consumer<Trouble> troubles) {
        Stamp since = closedByAFault;
        if (since != null) {
            troubles.accept(new Trouble(
                    Place.BRIDGE,
                    "web",
                    "the port for health and metrics is closed by a fault of the program",
                    "the log, and start the bridge again",
                    since,
                    Trouble.Weight.DEGRADED));
        }
        token.trouble()
                .ifPresent(trouble -> troubles.accept(new Trouble(
                        Place.BRIDGE,
                        "web",
                        trouble.seen(),
                        trouble.lookAt(),
                        trouble.since(),
                        Trouble.Weight.NOTICE)));
    }

    /** Closes the port and all connections. Returns within two seconds. A second call does nothing. */
    @Override
    public void close() {
        port.close();
    }
}
