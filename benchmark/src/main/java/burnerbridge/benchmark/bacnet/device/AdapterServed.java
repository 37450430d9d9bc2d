package burnerbridge.benchmark.bacnet.device;

import burnerbridge.bacnet.BacnetAdapter;
import burnerbridge.bacnet.BacnetStartException;
import burnerbridge.bacnet.cov.CovDesk;
import burnerbridge.bacnet.edge.PortCounters;
import burnerbridge.bacnet.edge.service.DropReason;
import burnerbridge.model.BridgeClock;
import burnerbridge.model.Reading;
import burnerbridge.model.RealValue;
import burnerbridge.model.Registers;
import burnerbridge.site.BacnetOptions;
import burnerbridge.site.BacnetSettings;
import burnerbridge.site.Site;
import burnerbridge.site.SitePoint;
import burnerbridge.table.ValueTable;
import java.util.List;
import java.util.Optional;

/** Ours: a value table and the adapter on it. */
final class AdapterServed implements Served {
    /** What nobody here reaches, so that the device is measured and not its patience. */
    private static final BacnetOptions UNLIMITED = BacnetOptions.USUAL.withLimits(10_000_000, 10_000);

    private final List<SitePoint> points;
    private final ValueTable table;
    private final BacnetAdapter adapter;
    private final BridgeClock clock;

    private AdapterServed(Site site, BacnetOptions options, int port, BridgeClock clock) {
        this.clock = clock;
        this.points = site.points();
        this.table = new ValueTable(points, site.controllers());
        BacnetSettings settings =
                new BacnetSettings(Device.INSTANCE, "measured", "127.0.0.1", port, Optional.empty(), 0, options);
        this.adapter = new BacnetAdapter(settings, site, table, clock);
    }

    static AdapterServed start(Site site, boolean usualLimits, int port, BridgeClock clock) {
        AdapterServed served = new AdapterServed(site, usualLimits ? BacnetOptions.USUAL : UNLIMITED, port, clock);
        for (int i = 0; i < served.points.size(); i++) {
            served.change(i, 0);
        }
        try {
            served.adapter.start();
        } catch (BacnetStartException e) {
            throw new IllegalStateException(e);
        }
        return served;
    }

    @Override
    public void change(int object, int value) {
        table.publish(points.get(object), Reading.good(new RealValue(value, 1), clock.now(), Registers.of(0)));
    }

    @Override
    public String state() {
        PortCounters counters = adapter.counters().orElseThrow();
        CovDesk desk = adapter.subscriptions().orElseThrow();
        return "subscriptions " + desk.count() + ", subscribers dropped " + desk.droppedPeers() + ", passed "
                + counters.passedCount() + ", dropped as a flood " + counters.droppedCount(DropReason.FLOOD)
                + ", dropped as too many " + counters.droppedCount(DropReason.BUSY);
    }

    @Override
    public void close() {
        adapter.close();
    }
}
