package burnerbridge.bacnet.device;

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

    /** An object, and the point that it shows; the objects that the bridge adds show none. */
    public record Entry(BACnetObject object, Optional<SitePoint> point) {}

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
                new LimitedLog(LoggerFactory.getLogger(Inventory.class), clock));
        List<Entry> entries = new ArrayList<>();
        made.served()
                .all()
                .forEach(object -> entries.add(new Entry(object, made.served().pointOf(object))));
        return new Inventory(made.face(), List.copyOf(entries));
    }
}
