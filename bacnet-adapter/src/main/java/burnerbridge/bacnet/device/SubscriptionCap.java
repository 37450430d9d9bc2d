package burnerbridge.bacnet.device;

import com.serotonin.bacnet4j.exception.BACnetServiceException;
import com.serotonin.bacnet4j.obj.mixin.CovContext;
import com.serotonin.bacnet4j.type.constructed.Address;
import com.serotonin.bacnet4j.type.enumerated.ErrorClass;
import com.serotonin.bacnet4j.type.enumerated.ErrorCode;
import com.serotonin.bacnet4j.type.primitive.ObjectIdentifier;
import com.serotonin.bacnet4j.type.primitive.UnsignedInteger;
import java.util.List;
import java.util.Map;

/**
 * Bounds the subscriptions of the whole device. The library forgets one that has expired only when its
 * object changes, so they are counted anew, and the expired cleared away, whenever the bound is reached.
 * Used by the library's transport thread only.
 */
final class SubscriptionCap {
    private final Map<ObjectIdentifier, List<CovContext>> subscriptions;
    private final MonotonicClock clock;
    private final int most;
    private int atMostThere;

    SubscriptionCap(Map<ObjectIdentifier, List<CovContext>> subscriptions, MonotonicClock clock, int most) {
        this.subscriptions = subscriptions;
        this.clock = clock;
        this.most = most;
    }

    /** Lets one more in, or a renewal; else the error that the standard has for a full list (13.14.2). */
    void admit(ObjectIdentifier object, Address subscriber, UnsignedInteger process) throws BACnetServiceException {
        if (atMostThere >= most) {
            atMostThere = clearAndCount();
        }
        if (atMostThere >= most && !isRenewal(object, subscriber, process)) {
            throw new BACnetServiceException(ErrorClass.resources, ErrorCode.noSpaceToAddListElement);
        }
        atMostThere++;
    }

    private int clearAndCount() {
        long now = clock.millis();
        int count = 0;
        for (List<CovContext> ofObject : subscriptions.values()) {
            synchronized (ofObject) {
                ofObject.removeIf(s -> s.hasExpired(now));
                count += ofObject.size();
            }
        }
        return count;
    }

    private boolean isRenewal(ObjectIdentifier object, Address subscriber, UnsignedInteger process) {
        List<CovContext> ofObject = subscriptions.getOrDefault(object, List.of());
        synchronized (ofObject) {
            return ofObject.stream()
                    .anyMatch(s -> s.getAddress().equals(subscriber)
                            && s.getSubscriberProcessIdentifier().equals(process));
        }
    }
}
