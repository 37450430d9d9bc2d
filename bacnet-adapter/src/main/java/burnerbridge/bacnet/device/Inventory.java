package burnerbridge.bacnet.device;

import burnerbridge.bacnet.door.Gate;
import burnerbridge.bacnet.edge.LimitedLog;
import burnerbridge.bacnet.edge.PeerLimits;
import burnerbridge.bacnet.edge.RequestQueue;
import burnerbridge.bacnet.exchange.Exchange;
import burnerbridge.bacnet.exchange.Timing;
import burnerbridge.bacnet.plan.ObjectChoices;
import burnerbridge.bacnet.plan.ObjectPlan;
import burnerbridge.model.BridgeClock;
import burnerbridge.site.BacnetSettings;
import burnerbridge.site.Site;
import burnerbridge.site.SitePoint;
import com.serotonin.bacnet4j.obj.BACnetObject;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.locks.ReentrantLock;
import org.slf4j.LoggerFactory;

/**
 * The very objects that a site serves, made by the same code and connected to nothing.
 *
 * @param device the device object
 * @param entries all others, in the order of the device's list
 */
public record Inventory(BACnetObject device, List<Entry> entries) {

    /**
     * An object, and the point that it shows or is asked for by; the other objects that the bridge adds have none.
     *
     * @param commandable whether its present value can be asked for
     */
    public record Entry(BACnetObject object, Optional<SitePoint> point, boolean commandable) {}

    /** Whether anything can be asked for. */
    public boolean isCommandable() {
        return entries.stream().anyMatch(Entry::commandable);
    }

    public static Inventory of(BacnetSettings settings, Site site, BridgeClock clock) {
        ObjectChoices choices = new ObjectChoices(
                settings.options().basicObjects(), settings.options().objectNames());
        Exchange silent = new Exchange(
                new NoNetwork(), new RequestQueue(PeerLimits.USUAL, clock), Timing.USUAL, clock, new ReentrantLock());
        DeviceObjects made = DeviceObjects.make(
                settings,
                site,
                ObjectPlan.of(site, choices),
                choices,
                silent,
                clock,
                new LimitedLog(LoggerFactory.getLogger(Inventory.class), clock),
                Gate.closed());
        List<Entry> entries = new ArrayList<>();
        made.served().all().forEach(object -> entries.add(entry(object, made)));
        return new Inventory(made.face(), List.copyOf(entries));
    }

    private static Entry entry(BACnetObject object, DeviceObjects made) {
        Optional<SitePoint> askedFor = made.door().asked(object).map(ObjectPlan.Asked::point);
        return new Entry(object, askedFor.or(() -> made.served().pointOf(object)), askedFor.isPresent());
    }
}
