package burnerbridge.mqtt;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.model.HandClock;
import burnerbridge.mqtt.access.AccessFiles;
import burnerbridge.mqtt.broker.Broker;
import burnerbridge.mqtt.broker.ReasonCode;
import burnerbridge.mqtt.watch.MqttFigures;
import java.net.URI;
import java.time.Duration;
import java.util.List;
import java.util.Map;
import java.util.function.Consumer;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Two bridges with one client identifier at a broker that has room for one. */
final class TwoBridgesTest {
    private static final Duration STEP = Duration.ofMillis(100);

    private final HandClock clock = new HandClock();

    /** Takes whoever comes, and throws out whom it had. */
    private static final class OneSeat implements Broker {
        private final boolean saysWhy;
        private @Nullable Seat taken;
        private int connections;

        OneSeat(boolean saysWhy) {
            this.saysWhy = saysWhy;
        }

        @Override
        public Session open(URI address, Introduction introduction, Consumer<Event> events) {
            Seat before = taken;
            if (before != null) {
                before.events.accept(new Event.Ended(
                        before,
                        saysWhy ? ReasonCode.TAKEN_OVER : ReasonCode.NONE,
                        saysWhy ? "the broker ended it: session taken over" : "the broker closed the connection"));
            }
            Seat seat = new Seat(events);
            taken = seat;
            connections++;
            events.accept(new Event.Opened(seat, 20));
            return seat;
        }

        private static final class Seat implements Session {
            private final Consumer<Event> events;

            Seat(Consumer<Event> events) {
                this.events = events;
            }

            @Override
            public boolean publish(Message message) {
                return true;
            }

            @Override
            public void subscribe(String filter, Wanted wanted) {}

            @Override
            public void unsubscribe(String filter) {}

            @Override
            public void end() {}

            @Override
            public void cut() {}
        }
    }

    private final class Bridge {
        private final Inbox<Broker.Event> inbox = new Inbox<>();
        private final Connector connector;

        Bridge(Broker broker) {
            connector = new Connector(
                    broker,
                    List.of(URI.create("tcp://one")),
                    "burner-bridge-quillmere",
                    new Broker.Message("t/link", "{}", 0),
                    new AccessWatch(new AccessFiles(TestPlant.settings("tcp://one"), Map.of())),
                    inbox::post,
                    new MqttFigures(clock.now()),
                    clock.now());
        }

        void step() {
            connector.step(clock.now());
            for (Broker.Event event : inbox.drain()) {
                if (event instanceof Broker.Event.Opened opened && connector.isCurrent(event.session())) {
                    connector.opened(opened, clock.now());
                } else if (event instanceof Broker.Event.Ended ended && connector.isCurrent(event.session())) {
                    connector.ended(ended, clock.now());
                }
            }
        }
    }

    private void pass(Duration time, Bridge... bridges) {
        for (long left = time.dividedBy(STEP); left > 0; left--) {
            clock.forward(STEP);
            for (Bridge bridge : bridges) {
                bridge.step();
            }
        }
    }

    @ParameterizedTest
    @ValueSource(booleans = {true, false})
    void theyGiveEachOtherMoreAndMoreTime(boolean saysWhy) {
        OneSeat broker = new OneSeat(saysWhy);
        Bridge first = new Bridge(broker);
        Bridge second = new Bridge(broker);
        pass(Duration.ofMinutes(1), first);

        pass(Duration.ofMinutes(10), first, second);
        int inTenMinutes = broker.connections;
        pass(Duration.ofHours(1), first, second);

        // By the pauses of 30 s, 1 and 2 min of both; where the broker is silent they need some turns to see it.
        assertThat(inTenMinutes).isBetween(5, saysWhy ? 12 : 20);
        assertThat(broker.connections - inTenMinutes).isBetween(10, 35);
        assertThat(Told.sentences(first.connector))
                .singleElement()
                .asString()
                .containsPattern(
                        saysWhy
                                ? "another client connects to tcp://one as burner-bridge-quillmere and takes the connection"
                                        + " over, \\d+ times by now"
                                : "tcp://one closes the connection again and again, \\d+ times by now, as when another"
                                        + " client connects as burner-bridge-quillmere")
                .endsWith("look at a second bridge with this site's name or its mqtt.client-id: only one may connect"
                        + " under it");
        assertThat(Told.troubles(second.connector)).hasSize(1);
    }

    @ParameterizedTest
    @ValueSource(booleans = {true, false})
    void whenOneIsSwitchedOffTheOtherIsBackWithinTwoMinutesAndTheTroubleEndsFiveMinutesLater(boolean saysWhy) {
        OneSeat broker = new OneSeat(saysWhy);
        Bridge first = new Bridge(broker);
        Bridge second = new Bridge(broker);
        pass(Duration.ofMinutes(30), first, second);

        pass(Duration.ofMinutes(2), first);
        assertThat(first.connector.state().connected()).isTrue();
        assertThat(Told.sentences(first.connector)).singleElement().asString().startsWith("degraded broker mqtt: ");
        pass(Duration.ofMinutes(5), first);
        assertThat(Told.troubles(first.connector)).isEmpty();
    }
}
