package burnerbridge.daemon;

import burnerbridge.health.HealthReport;
import burnerbridge.health.HealthSource;
import burnerbridge.health.Place;
import burnerbridge.health.Trouble;
import burnerbridge.health.Trouble.Weight;
import burnerbridge.measure.MetricSink;
import burnerbridge.measure.MetricSource;
import burnerbridge.model.BridgeClock;
import burnerbridge.model.Stamp;
import burnerbridge.site.Site;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.CopyOnWriteArrayList;
import java.util.function.Consumer;

/** How the bridge is, of all its parts: what is wrong, what moves, what is counted. For any thread. */
final class Vitals implements MetricSource {
    private final Site site;
    private final BridgeClock clock;
    private final Stamp startedAt;
    private final List<DutyThread> duties = new CopyOnWriteArrayList<>();
    private final List<HealthSource> healths = new CopyOnWriteArrayList<>();
    private final List<MetricSource> metrics = new CopyOnWriteArrayList<>();
    private volatile boolean started;

    Vitals(Site site, BridgeClock clock) {
        this.site = site;
        this.clock = clock;
        this.startedAt = clock.now();
        watch(this::clock);
    }

    Stamp startedAt() {
        return startedAt;
    }

    /** Something that must keep moving. */
    void watch(DutyThread duty) {
        duties.add(duty);
    }

    void watch(HealthSource source) {
        healths.add(source);
    }

    void count(MetricSource source) {
        metrics.add(source);
    }

    /** Every part was started, be it that some try again. */
    void allStarted() {
        started = true;
    }

    /** What is wrong right now, of all parts. */
    HealthReport report() {
        long now = clock.ticks();
        List<String> stalled = duties.stream()
                .filter(duty -> duty.stalled(now).isPresent())
                .map(DutyThread::name)
                .toList();
        List<Trouble> troubles = new ArrayList<>();
        healths.forEach(source -> source.tell(troubles::add));
        duties.forEach(duty -> duty.stalled(now)
                .ifPresent(since -> troubles.add(new Trouble(
                        Place.BRIDGE,
                        duty.name(),
                        "has not moved for " + since.toSeconds()
                                + " s, which is an error in the program or a machine that" + " does not keep up",
                        "the load of the machine, and restart the bridge; keep its log",
                        null,
                        Weight.NOT_READY))));
        return new HealthReport(
                stalled.isEmpty(),
                stalled,
                started,
                troubles,
                site.name().text(),
                Main.VERSION,
                startedAt,
                clock.now().believed());
    }

    private void clock(Consumer<Trouble> troubles) {
        Stamp now = clock.now();
        if (!now.believed()) {
            troubles.accept(new Trouble(
                    Place.BRIDGE,
                    "clock",
                    "it says " + now.wall() + ", which cannot be right, so that each time on MQTT is marked as unsure",
                    "the time service of the box, and its battery",
                    null,
                    Weight.DEGRADED));
        }
    }

    @Override
    public void measure(MetricSink sink) {
        metrics.forEach(source -> source.measure(sink));
    }
}
