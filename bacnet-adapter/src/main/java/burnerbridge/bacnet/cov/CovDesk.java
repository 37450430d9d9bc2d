package burnerbridge.bacnet.cov;

import burnerbridge.model.BridgeClock;
import com.serotonin.bacnet4j.exception.BACnetServiceException;
import com.serotonin.bacnet4j.service.confirmed.ConfirmedCovNotificationRequest;
import com.serotonin.bacnet4j.service.unconfirmed.UnconfirmedCovNotificationRequest;
import com.serotonin.bacnet4j.type.constructed.Address;
import com.serotonin.bacnet4j.type.constructed.CovSubscription;
import com.serotonin.bacnet4j.type.constructed.ObjectPropertyReference;
import com.serotonin.bacnet4j.type.constructed.Recipient;
import com.serotonin.bacnet4j.type.constructed.RecipientProcess;
import com.serotonin.bacnet4j.type.constructed.SequenceOf;
import com.serotonin.bacnet4j.type.enumerated.ErrorClass;
import com.serotonin.bacnet4j.type.enumerated.ErrorCode;
import com.serotonin.bacnet4j.type.enumerated.PropertyIdentifier;
import com.serotonin.bacnet4j.type.primitive.Boolean;
import com.serotonin.bacnet4j.type.primitive.ObjectIdentifier;
import com.serotonin.bacnet4j.type.primitive.UnsignedInteger;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import java.util.function.Predicate;
import org.jspecify.annotations.Nullable;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * Keeps the subscriptions of a device and tells their subscribers (ASHRAE 135, 13.1, 13.14 and 13.15), for
 * objects of every type alike. Bounded: subscriptions of each peer and of all, and what waits for a peer.
 * A peer that leaves three confirmed notifications in a row unanswered is forgotten with all it subscribed to.
 *
 * <p>Safe for any number of threads.
 */
public final class CovDesk {
    private static final Logger LOG = LoggerFactory.getLogger(CovDesk.class);

    private final ObjectIdentifier device;
    private final Post post;
    private final BridgeClock clock;
    private final CovLimits limits;
    private final CovCounters counters = new CovCounters();
    private final Map<ObjectIdentifier, List<Subscription>> byObject = new ConcurrentHashMap<>();
    private final Map<Address, Integer> counts = new HashMap<>();
    private final Map<Address, PeerQueue> queues = new HashMap<>();
    private final List<Subscription> fresh = new ArrayList<>();
    private int count;
    private long dropped;

    public CovDesk(ObjectIdentifier device, Post post, BridgeClock clock, CovLimits limits) {
        this.device = device;
        this.post = post;
        this.clock = clock;
        this.limits = limits;
    }

    /**
     * Takes a subscription or renews it. Its first notification goes out with the next {@link #tellFresh}.
     *
     * @param property null for the whole object
     * @throws BACnetServiceException where there is no room for one more
     */
    public synchronized void subscribe(
            Watched object, Subscriber subscriber, @Nullable PropertyIdentifier property, Terms terms)
            throws BACnetServiceException {
        Subscription found = find(subscriptionsTo(object.objectId()), subscriber, property);
        if (found == null) {
            found = admit(new Subscription(object, subscriber, property, terms));
        }
        found.renew(terms, clock.ticks());
        fresh.add(found);
    }

    private List<Subscription> subscriptionsTo(ObjectIdentifier object) {
        return byObject.getOrDefault(object, List.of());
    }

    private Subscription admit(Subscription subscription) throws BACnetServiceException {
        Address station = subscription.subscriber.station();
        if (isFull(station)) {
            sweep();
        }
        if (isFull(station)) {
            throw new BACnetServiceException(ErrorClass.resources, ErrorCode.noSpaceToAddListElement);
        }
        byObject.computeIfAbsent(subscription.object.objectId(), id -> new ArrayList<>(1))
                .add(subscription);
        count++;
        counts.merge(station, 1, Integer::sum);
        return subscription;
    }

    private boolean isFull(Address station) {
        return count >= limits.inAll() || counts.getOrDefault(station, 0) >= limits.perPeer();
    }

    private static @Nullable Subscription find(
            List<Subscription> ofObject, Subscriber subscriber, @Nullable PropertyIdentifier property) {
        for (Subscription subscription : ofObject) {
            if (subscription.isFor(subscriber, property)) {
                return subscription;
            }
        }
        return null;
    }

    /** Ends a subscription; one that is not there is no mistake (13.14.2). */
    public synchronized void cancel(
            ObjectIdentifier object, Subscriber subscriber, @Nullable PropertyIdentifier property) {
        List<Subscription> ofObject = subscriptionsTo(object);
        Subscription found = find(ofObject, subscriber, property);
        if (found != null) {
            ofObject.remove(found);
            forget(found);
        }
    }

    /** Tells who subscribed since the last call what the object holds now. */
    public synchronized void tellFresh() {
        if (!fresh.isEmpty()) {
            List<Subscription> due = List.copyOf(fresh);
            fresh.clear();
            due.stream().filter(this::isThere).forEach(this::owe);
        }
    }

    private boolean isThere(Subscription subscription) {
        return subscriptionsTo(subscription.object.objectId()).contains(subscription);
    }

    /** Tells whoever wants to know that an object may have changed. */
    public void changed(Watched object) {
        if (byObject.containsKey(object.objectId())) {
            tellChange(object);
        }
    }

    private synchronized void tellChange(Watched object) {
        long now = clock.ticks();
        for (Subscription subscription : List.copyOf(subscriptionsTo(object.objectId()))) {
            if (!subscription.isOver(now) && subscription.isDue()) {
                owe(subscription);
            }
        }
    }

    private void owe(Subscription subscription) {
        if (!subscription.confirmed()) {
            post.tell(subscription.subscriber.station(), unconfirmed(subscription));
            counters.told();
            return;
        }
        PeerQueue queue =
                queues.computeIfAbsent(subscription.subscriber.station(), station -> new PeerQueue(limits.waiting()));
        queue.add(subscription);
        pump(subscription.subscriber.station(), queue);
    }

    private void pump(Address station, PeerQueue queue) {
        long now = clock.ticks();
        for (Subscription next = queue.next(); next != null; next = queue.next()) {
            if (next.isOver(now) || !isThere(next)) {
                queue.passedOver();
                continue;
            }
            long round = queue.round();
            counters.asked();
            post.ask(station, confirmed(next), reply -> answered(station, queue, round, reply));
        }
    }

    private synchronized void answered(Address station, PeerQueue queue, long round, Post.Reply reply) {
        counters.answered(reply);
        if (reply == Post.Reply.SILENT) {
            queue.silent(round);
        } else {
            queue.heard();
        }
        if (queue.isDead() && queues.remove(station, queue)) {
            forgetStation(station);
        } else {
            pump(station, queue);
        }
    }

    private void forgetStation(Address station) {
        int before = count;
        removeIf(subscription -> subscription.subscriber.station().equals(station));
        dropped++;
        LOG.warn(
                "bacnet: {} left three notifications in a row unanswered; its {} subscriptions are dropped",
                station.getDescription(),
                before - count);
    }

    /** Forgets what is over. Called now and then. */
    public synchronized void sweep() {
        long now = clock.ticks();
        removeIf(subscription -> subscription.isOver(now));
    }

    private void removeIf(Predicate<Subscription> ends) {
        for (List<Subscription> ofObject : List.copyOf(byObject.values())) {
            for (Subscription subscription : List.copyOf(ofObject)) {
                if (ends.test(subscription)) {
                    ofObject.remove(subscription);
                    forget(subscription);
                }
            }
        }
    }

    private void forget(Subscription subscription) {
        count--;
        Address station = subscription.subscriber.station();
        if (counts.merge(station, -1, Integer::sum) == 0) {
            counts.remove(station);
            queues.remove(station);
        }
        byObject.computeIfPresent(subscription.object.objectId(), (id, list) -> list.isEmpty() ? null : list);
    }

    private UnconfirmedCovNotificationRequest unconfirmed(Subscription subscription) {
        return new UnconfirmedCovNotificationRequest(
                subscription.subscriber.process(),
                device,
                subscription.object.objectId(),
                new UnsignedInteger(subscription.secondsLeft(clock.ticks())),
                subscription.values());
    }

    private ConfirmedCovNotificationRequest confirmed(Subscription subscription) {
        return new ConfirmedCovNotificationRequest(
                subscription.subscriber.process(),
                device,
                subscription.object.objectId(),
                new UnsignedInteger(subscription.secondsLeft(clock.ticks())),
                subscription.values());
    }

    /** Active_COV_Subscriptions of the device (12.11.39). */
    public synchronized SequenceOf<CovSubscription> active() {
        long now = clock.ticks();
        SequenceOf<CovSubscription> active = new SequenceOf<>();
        for (List<Subscription> ofObject : byObject.values()) {
            for (Subscription subscription : ofObject) {
                if (!subscription.isOver(now)) {
                    active.add(shown(subscription, now));
                }
            }
        }
        return active;
    }

    private static CovSubscription shown(Subscription subscription, long now) {
        return new CovSubscription(
                new RecipientProcess(
                        new Recipient(subscription.subscriber.station()), subscription.subscriber.process()),
                new ObjectPropertyReference(subscription.object.objectId(), subscription.reported(), null),
                Boolean.valueOf(subscription.confirmed()),
                new UnsignedInteger(subscription.secondsLeft(now)),
                subscription.increment());
    }

    /** Subscriptions that are kept, those that are over but not swept yet included. */
    public synchronized int count() {
        return count;
    }

    /** Notifications that wait until those before them are acknowledged. */
    public synchronized int waiting() {
        return queues.values().stream().mapToInt(PeerQueue::waiting).sum();
    }

    public CovCounters counters() {
        return counters;
    }

    /** Peers that were forgotten since they never acknowledged. */
    public synchronized long droppedPeers() {
        return dropped;
    }
}
