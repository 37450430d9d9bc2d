package burnerbridge.bacnet.cov;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import burnerbridge.model.HandClock;
import com.serotonin.bacnet4j.exception.BACnetServiceException;
import com.serotonin.bacnet4j.service.confirmed.ConfirmedCovNotificationRequest;
import com.serotonin.bacnet4j.service.confirmed.ConfirmedRequestService;
import com.serotonin.bacnet4j.service.unconfirmed.UnconfirmedRequestService;
import com.serotonin.bacnet4j.type.Encodable;
import com.serotonin.bacnet4j.type.constructed.Address;
import com.serotonin.bacnet4j.type.constructed.CovSubscription;
import com.serotonin.bacnet4j.type.constructed.StatusFlags;
import com.serotonin.bacnet4j.type.enumerated.ObjectType;
import com.serotonin.bacnet4j.type.enumerated.PropertyIdentifier;
import com.serotonin.bacnet4j.type.primitive.Double;
import com.serotonin.bacnet4j.type.primitive.ObjectIdentifier;
import com.serotonin.bacnet4j.type.primitive.Real;
import com.serotonin.bacnet4j.type.primitive.SignedInteger;
import com.serotonin.bacnet4j.type.primitive.UnsignedInteger;
import com.serotonin.bacnet4j.util.sero.ByteQueue;
import java.time.Duration;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.HexFormat;
import java.util.List;
import java.util.OptionalDouble;
import java.util.function.Consumer;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;

final class CovDeskTest {
    private static final PropertyIdentifier VALUE = PropertyIdentifier.presentValue;

    private final HandClock clock = new HandClock();
    private final Office post = new Office();
    private final CovDesk desk =
            new CovDesk(new ObjectIdentifier(ObjectType.device, 3), post, clock, new CovLimits(5, 8, 64));

    /** Keeps what is sent; answers when it is told to. */
    private static final class Office implements Post {
        final List<UnconfirmedRequestService> told = new ArrayList<>();
        final List<ConfirmedRequestService> asked = new ArrayList<>();
        final Deque<Consumer<Reply>> open = new ArrayDeque<>();

        @Override
        public void tell(Address to, UnconfirmedRequestService notification) {
            told.add(notification);
        }

        @Override
        public void ask(Address to, ConfirmedRequestService notification, Consumer<Reply> done) {
            asked.add(notification);
            open.add(done);
        }

        void answerAll(Reply reply) {
            for (int i = open.size(); i > 0; i--) {
                open.remove().accept(reply);
            }
        }
    }

    private static final class Thing implements Watched {
        private final ObjectIdentifier id;
        private final double telling;
        Encodable value = new Real(0);
        boolean fault;

        Thing(int instance, double telling) {
            this.id = new ObjectIdentifier(ObjectType.analogInput, instance);
            this.telling = telling;
        }

        @Override
        public ObjectIdentifier objectId() {
            return id;
        }

        @Override
        public @Nullable Encodable held(PropertyIdentifier property) {
            return property.equals(VALUE)
                    ? value
                    : property.equals(PropertyIdentifier.statusFlags)
                            ? new StatusFlags(false, fault, false, false)
                            : null;
        }

        @Override
        public OptionalDouble tellingChange() {
            return OptionalDouble.of(telling);
        }
    }

    private static Subscriber subscriber(int peer) {
        return new Subscriber(new Address(new byte[] {10, 0, 0, (byte) peer, 0, 1}), new UnsignedInteger(7));
    }

    private void subscribe(Thing thing, int peer, boolean confirmed, long lifetime) throws BACnetServiceException {
        desk.subscribe(thing, subscriber(peer), null, new Terms(confirmed, lifetime, null));
        desk.tellFresh();
    }

    private void set(Thing thing, Encodable value) {
        thing.value = value;
        desk.changed(thing);
    }

    static Stream<Arguments> numbers() {
        return Stream.of(
                Arguments.of(new Real(10), new Real(10.9f), new Real(11)),
                Arguments.of(new Double(1e12), new Double(1e12 + 0.9), new Double(1e12 + 1)),
                Arguments.of(new SignedInteger(-5), new SignedInteger(-5), new SignedInteger(-6)),
                Arguments.of(
                        new UnsignedInteger(4_000_000_000L),
                        new UnsignedInteger(4_000_000_000L),
                        new UnsignedInteger(4_000_000_001L)));
    }

    @ParameterizedTest
    @MethodSource("numbers")
    void everyKindOfNumberIsToldWhenItHasChangedEnough(Encodable start, Encodable near, Encodable far)
            throws BACnetServiceException {
        Thing thing = new Thing(1, 1);
        thing.value = start;
        subscribe(thing, 1, false, 60);
        set(thing, near);
        assertThat(post.told).hasSize(1);
        set(thing, far);
        assertThat(post.told).hasSize(2);
    }

    @Test
    void aStatedIncrementCountsInThePlaceOfTheObjectsOwn() throws BACnetServiceException {
        Thing thing = new Thing(1, 1);
        desk.subscribe(thing, subscriber(1), VALUE, new Terms(false, 60, new Real(5)));
        desk.tellFresh();
        set(thing, new Real(4));
        assertThat(post.told).hasSize(1);
        set(thing, new Real(5));
        assertThat(post.told).hasSize(2);
    }

    @Test
    void aChangeOfTheFlagsAloneIsTold() throws BACnetServiceException {
        Thing thing = new Thing(1, 1);
        subscribe(thing, 1, false, 60);
        thing.fault = true;
        desk.changed(thing);
        desk.changed(thing);
        assertThat(post.told).hasSize(2);
    }

    @Test
    void smallChangesAddUp() throws BACnetServiceException {
        Thing thing = new Thing(1, 1);
        subscribe(thing, 1, false, 60);
        for (int i = 1; i <= 8; i++) {
            set(thing, new Real(i / 4f));
        }
        assertThat(post.told).hasSize(3);
    }

    @Test
    void anEndedOrCancelledSubscriptionIsToldNothing() throws BACnetServiceException {
        Thing thing = new Thing(1, 1);
        subscribe(thing, 1, false, 60);
        subscribe(thing, 2, false, 300);
        clock.forward(Duration.ofSeconds(60));
        desk.cancel(thing.id, subscriber(2), null);
        set(thing, new Real(9));
        assertThat(post.told).hasSize(2);
        assertThat(desk.active().size()).isZero();
        desk.sweep();
        assertThat(desk.count()).isZero();
    }

    @Test
    void oneWithoutEndStays() throws BACnetServiceException {
        Thing thing = new Thing(1, 1);
        subscribe(thing, 1, false, 0);
        clock.forward(Duration.ofDays(400));
        desk.sweep();
        set(thing, new Real(9));
        assertThat(post.told).hasSize(2);
        CovSubscription shown = desk.active().getBase1(1);
        assertThat(shown.getTimeRemaining()).isEqualTo(new UnsignedInteger(0));
    }

    @Test
    void aPeerAndAllPeersTogetherHaveABoundAndRenewalsDoNotCount() throws BACnetServiceException {
        for (int i = 0; i < 5; i++) {
            subscribe(new Thing(i, 1), 1, false, 60);
            subscribe(new Thing(i, 1), 1, false, 60);
        }
        assertThatThrownBy(() -> subscribe(new Thing(9, 1), 1, false, 60)).isInstanceOf(BACnetServiceException.class);
        for (int i = 0; i < 3; i++) {
            subscribe(new Thing(i, 1), 2, false, 60);
        }
        assertThatThrownBy(() -> subscribe(new Thing(0, 1), 3, false, 60)).isInstanceOf(BACnetServiceException.class);
        clock.forward(Duration.ofSeconds(61));
        subscribe(new Thing(0, 1), 3, false, 60);
        assertThat(desk.count()).isEqualTo(1);
    }

    @Test
    void aSlowPeerIsToldTheNewestValueOnce() throws BACnetServiceException {
        Thing thing = new Thing(1, 1);
        subscribe(thing, 1, true, 60);
        for (int i = 1; i <= 100; i++) {
            set(thing, new Real(2 * i));
        }
        assertThat(post.asked).hasSizeLessThanOrEqualTo(5);
        int before = post.asked.size();
        post.answerAll(Post.Reply.ACKNOWLEDGED);
        assertThat(post.asked).hasSizeGreaterThan(before);
        post.answerAll(Post.Reply.ACKNOWLEDGED);
        ConfirmedCovNotificationRequest last = (ConfirmedCovNotificationRequest) post.asked.get(post.asked.size() - 1);
        ByteQueue octets = new ByteQueue();
        last.write(octets);
        assertThat(HexFormat.of().formatHex(octets.popAll())).contains("4443480000"); // 200 as a REAL
    }

    @Test
    void aPeerThatLeavesThreeInARowUnansweredIsDropped() throws BACnetServiceException {
        Thing[] things = new Thing[5];
        for (int i = 0; i < 5; i++) {
            things[i] = new Thing(i, 1);
            subscribe(things[i], 1, true, 60);
        }
        subscribe(things[0], 2, false, 60);
        assertThat(post.open).hasSize(4);
        post.answerAll(Post.Reply.SILENT); // one round, though four were on their way
        assertThat(post.open).hasSize(1);
        post.answerAll(Post.Reply.SILENT);
        assertThat(desk.droppedPeers()).isZero();
        set(things[1], new Real(7));
        post.answerAll(Post.Reply.SILENT);
        assertThat(desk.droppedPeers()).isEqualTo(1);
        assertThat(desk.count()).isEqualTo(1);
    }

    @Test
    void aPeerThatAnswersNowAndThenIsKept() throws BACnetServiceException {
        Thing thing = new Thing(1, 1);
        subscribe(thing, 1, true, 60);
        for (int i = 1; i <= 20; i++) {
            post.answerAll(i % 3 == 0 ? Post.Reply.REFUSED : Post.Reply.SILENT);
            set(thing, new Real(2 * i));
        }
        assertThat(desk.droppedPeers()).isZero();
        assertThat(desk.count()).isEqualTo(1);
    }
}
