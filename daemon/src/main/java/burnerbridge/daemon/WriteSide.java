package burnerbridge.daemon;

import burnerbridge.health.Place;
import burnerbridge.health.Trouble;
import burnerbridge.measure.MetricSink;
import burnerbridge.model.BridgeClock;
import burnerbridge.permits.PermitsHandler;
import burnerbridge.site.Site;
import burnerbridge.table.ValueTable;
import burnerbridge.values.AskedFor;
import burnerbridge.write.Gatehouse;
import burnerbridge.write.WriteEvent;
import burnerbridge.write.audit.AuditHead;
import burnerbridge.write.store.FolderDisk;
import java.io.IOException;
import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.CopyOnWriteArrayList;
import java.util.concurrent.locks.LockSupport;
import java.util.function.Consumer;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/** The write gate with its files. Where these cannot be had, nothing may be written, and the bridge reads all the same. */
final class WriteSide {
    private static final Logger LOG = LoggerFactory.getLogger(WriteSide.class);
    /** The whole bridge ends within five seconds. */
    private static final Duration PATIENCE_AT_THE_END = Duration.ofMillis(2_500);

    private static final long WHERE_THERE_IS_NONE = Duration.ofMinutes(1).toNanos();

    private final FolderDisk disk;
    private final Optional<Gatehouse> gatehouse;
    private final boolean anyPermit;
    private final List<WriteEvent.Listener> listeners = new CopyOnWriteArrayList<>();
    private String why = "";

    /** @param stateFolder taken by this process */
    WriteSide(Site site, ValueTable table, BridgeClock clock, Path stateFolder) {
        this(site, table, clock, stateFolder, Optional.empty());
    }

    /**
     * @param stateFolder taken by this process
     * @param closed why nothing may be written whatever is approved; what is kept of permits is not touched then
     */
    WriteSide(Site site, ValueTable table, BridgeClock clock, Path stateFolder, Optional<String> closed) {
        this.disk = new FolderDisk(FolderDisk.in(stateFolder));
        this.anyPermit = !site.permits().isEmpty();
        this.gatehouse = closed.isPresent() ? asleep(closed.get()) : open(site, table, clock);
    }

    private Optional<Gatehouse> asleep(String closed) {
        why = closed;
        if (anyPermit) {
            LOG.warn("write permits: nothing is written, and what stood in a controller stays there: {}", closed);
        }
        return Optional.empty();
    }

    private Optional<Gatehouse> open(Site site, ValueTable table, BridgeClock clock) {
        try {
            return Optional.of(Gatehouse.open(site, disk, table, clock, this::told));
        } catch (IOException e) {
            why = String.valueOf(e.getMessage());
            LOG.error("write gate: nothing may be written, since what it kept cannot be had: {}", why);
            return Optional.empty();
        }
    }

    /** Has what becomes of writes told to others too, from now on. */
    void telling(WriteEvent.Listener listener) {
        listeners.add(listener);
    }

    private void told(WriteEvent event) {
        log(event);
        listeners.forEach(listener -> listener.told(event));
    }

    private static void log(WriteEvent event) {
        String point = event.point().toString();
        String words = event.sentence().contains(point) ? event.sentence() : point + ": " + event.sentence();
        switch (event.kind()) {
            case WRITTEN, SILENCE, LEASE_ENDED -> LOG.info("write gate: {}", words);
            case REFUSED, FAILED, HELD, ASLEEP -> LOG.warn("write gate: {}", words);
        }
    }

    Optional<Gatehouse> gatehouse() {
        return gatehouse;
    }

    /** What is wrong with it right now. */
    void tell(Consumer<Trouble> troubles) {
        if (gatehouse.isPresent()) {
            gatehouse.get().tell(troubles);
        } else if (anyPermit) {
            troubles.accept(new Trouble(
                    Place.BRIDGE,
                    "write permits",
                    "nothing may be written: " + why,
                    "the state folder and the log of the start",
                    null,
                    Trouble.Weight.DEGRADED));
        }
    }

    void measure(MetricSink sink) {
        gatehouse.ifPresent(house -> house.measure(sink));
    }

    /** What answers the command that shows, approves and withdraws permits. */
    PermitsHandler permits(Site site, ValueTable table) {
        return new PermitsHandler(site, table, gatehouse, why, LockSupport::parkNanos);
    }

    /** Who asks for what. */
    AskedFor.Source asked(Site site) {
        return gatehouse
                .<AskedFor.Source>map(house -> new AskedPermits(house, site))
                .orElse(AskedFor.Source.NONE);
    }

    /** The newest record of the audit, where anything may be written. */
    Optional<String> head() {
        return anyPermit ? gatehouse.map(Gatehouse::head).map(AuditHead::toString) : Optional.empty();
    }

    long step(long now) {
        return gatehouse.map(house -> house.step(now)).orElse(now + WHERE_THERE_IS_NONE);
    }

    /** Takes back what stands in controllers, as their permits say, while the lines still run. */
    void takeBack() {
        gatehouse.ifPresent(house -> {
            if (!house.end(PATIENCE_AT_THE_END, LockSupport::parkNanos)) {
                LOG.warn("write gate: not everything that stood could be taken back in time; it is once the bridge runs"
                        + " again, after its whole time");
            }
        });
    }

    void close() {
        gatehouse.ifPresent(Gatehouse::close);
        try {
            disk.close();
        } catch (IOException e) {
            LOG.warn("write gate: {}", e.getMessage());
        }
    }
}
