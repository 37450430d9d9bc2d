package burnerbridge.bacnet.device;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import burnerbridge.model.HandClock;
import com.serotonin.bacnet4j.exception.BACnetServiceException;
import com.serotonin.bacnet4j.obj.mixin.CovContext;
import com.serotonin.bacnet4j.type.constructed.Address;
import com.serotonin.bacnet4j.type.enumerated.ObjectType;
import com.serotonin.bacnet4j.type.enumerated.PropertyIdentifier;
import com.serotonin.bacnet4j.type.primitive.ObjectIdentifier;
import com.serotonin.bacnet4j.type.primitive.UnsignedInteger;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import org.junit.jupiter.api.Test;

final class SubscriptionCapTest {
    private static final ObjectIdentifier OBJECT = new ObjectIdentifier(ObjectType.analogInput, 1);

    private final HandClock hand = new HandClock();
    private final MonotonicClock clock = new MonotonicClock(hand);
    private final List<CovContext> list = new ArrayList<>();
    private final Map<ObjectIdentifier, List<CovContext>> subscriptions = new ConcurrentHashMap<>(Map.of(OBJECT, list));
    private final SubscriptionCap cap = new SubscriptionCap(subscriptions, clock, 3);

    private void subscribe(int peer, int seconds) throws BACnetServiceException {
        Address address = new Address(new byte[] {10, 0, 0, (byte) peer, 0, 1});
        cap.admit(OBJECT, address, new UnsignedInteger(1));
        list.removeIf(s -> s.getAddress().equals(address));
        CovContext added =
                new CovContext(clock, address, new UnsignedInteger(1), null, PropertyIdentifier.presentValue);
        added.setExpiryTime(seconds);
        list.add(added);
    }

    @Test
    void oneMoreThanTheBoundIsRefused() throws BACnetServiceException {
        for (int peer = 0; peer < 3; peer++) {
            subscribe(peer, 60);
        }
        assertThatThrownBy(() -> subscribe(9, 60)).isInstanceOf(BACnetServiceException.class);
        assertThat(list).hasSize(3);
    }

    @Test
    void renewalsAreNeverRefusedAndDoNotCount() throws BACnetServiceException {
        for (int i = 0; i < 50; i++) {
            subscribe(i % 3, 60);
        }
        assertThat(list).hasSize(3);
    }

    @Test
    void whatHasExpiredMakesRoom() throws BACnetServiceException {
        for (int peer = 0; peer < 3; peer++) {
            subscribe(peer, 60);
        }
        hand.forward(Duration.ofSeconds(61));
        subscribe(9, 60);
        assertThat(list).hasSize(1);
    }
}
