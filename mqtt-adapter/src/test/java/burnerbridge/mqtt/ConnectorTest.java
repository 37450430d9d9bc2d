package burnerbridge.mqtt;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import burnerbridge.mqtt.broker.FakeBroker.FakeSession;
import ch.qos.logback.classic.Level;
import ch.qos.logback.classic.Logger;
import ch.qos.logback.classic.spi.ILoggingEvent;
import ch.qos.logback.core.read.ListAppender;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.slf4j.LoggerFactory;

class ConnectorTest {
    private final ListAppender<ILoggingEvent> log = new ListAppender<>();

    @BeforeEach
    void listen() {
        log.start();
        ((Logger) LoggerFactory.getLogger("burnerbridge.mqtt")).addAppender(log);
    }

    @AfterEach
    void stopListening() {
        ((Logger) LoggerFactory.getLogger("burnerbridge.mqtt")).detachAppender(log);
    }

    @Test
    void withOneBrokerThePausesGrowFromOneSecondToThirtyAndStayThere() {
        SenderRig rig = new SenderRig(TestPlant.siteOf(1), "mqtt://one");

        assertThat(pausesAfterFailures(rig, 8)).containsExactly(1L, 2L, 4L, 8L, 16L, 30L, 30L, 30L);
    }

    @Test
    void brokersAreTriedInTurnAndEachRoundDoublesThePause() {
        SenderRig rig = new SenderRig(TestPlant.siteOf(1), "mqtt://one", "mqtt://two", "mqtt://three");

        assertThat(pausesAfterFailures(rig, 9)).containsExactly(1L, 1L, 1L, 2L, 2L, 2L, 4L, 4L, 4L);
        assertThat(rig.broker.sessions.stream().limit(7).map(s -> s.address.getHost()))
                .containsExactly("one", "two", "three", "one", "two", "three", "one");
    }

    @Test
    void hundredsOfFailuresAreWarnedOfOnceForEachBroker() {
        SenderRig rig = new SenderRig(TestPlant.siteOf(1), "mqtt://one", "mqtt://two");

        pausesAfterFailures(rig, 300);

        assertThat(warnings()).hasSize(2);
    }

    @Test
    void aConnectionThatLastedBringsTheSameBrokerAndTheFirstPauseAgain() {
        SenderRig rig = new SenderRig(TestPlant.siteOf(1), "mqtt://one", "mqtt://two");
        pausesAfterFailures(rig, 5);
        FakeSession session = rig.broker.last();
        session.answersAtOnce = true;
        session.open(100);
        rig.pass(Duration.ofSeconds(31));

        session.tellEnd(0, "reset by peer");
        rig.step();

        assertThat(pauseUntilNextAttempt(rig)).isEqualTo(1);
        assertThat(rig.broker.last().address).isEqualTo(session.address);
    }

    @Test
    void aConnectionThatBreaksAtOnceIsAFailureLikeAnother() {
        SenderRig rig = new SenderRig(TestPlant.siteOf(1), "mqtt://one");
        List<Long> pauses = new ArrayList<>();
        rig.step();
        for (int i = 0; i < 6; i++) {
            rig.broker.last().open(100);
            rig.step();
            rig.broker.last().tellEnd(0x82, "protocol error");
            rig.step();
            pauses.add(pauseUntilNextAttempt(rig));
        }

        assertThat(pauses).containsExactly(1L, 2L, 4L, 8L, 16L, 30L);
        assertThat(warnings()).hasSize(6);
        assertThat(warnings().get(1)).doesNotContain("another client");
        assertThat(warnings().get(2))
                .contains("3 in a row, as when another client connects as burner-bridge-quillmere");
    }

    @Test
    void aTakeoverIsNamedAndAnsweredWithALongPause() {
        SenderRig rig = SenderRig.connected(TestPlant.siteOf(1));

        rig.broker.last().tellEnd(0x8E, "the broker ended it: 0x8E session taken over");
        rig.step();

        assertThat(pauseUntilNextAttempt(rig)).isEqualTo(30);
        assertThat(warnings())
                .singleElement()
                .asString()
                .contains("another client connected as burner-bridge-quillmere")
                .contains("mqtt://one");
        assertThat(rig.sender.state().detail()).contains("second bridge");
    }

    @Test
    void aBrokerThatNeverAnswersIsGivenUpAfterFifteenSeconds() {
        SenderRig rig = new SenderRig(TestPlant.siteOf(1), "mqtt://mute", "mqtt://two");
        rig.step();

        rig.pass(Duration.ofMillis(14_900));
        assertThat(rig.broker.last().wasCut).isFalse();
        rig.pass(Duration.ofMillis(1_200));

        assertThat(rig.broker.sessions.get(0).wasCut).isTrue();
        assertThat(rig.broker.last().address.getHost()).isEqualTo("two");
    }

    @Test
    void aFaultOfOurOwnWithoutAConnectionLeadsToAPauseToo() {
        SenderRig rig = new SenderRig(TestPlant.siteOf(1), "mqtt://one");

        rig.sender.fail("a fault", rig.clock.now());

        assertThat(rig.sender.nextDue() - rig.clock.ticks()).isEqualTo(Rota.FIRST_PAUSE);
    }

    @Test
    void withoutABrokerThereIsNoAdapter() {
        assertThatThrownBy(() -> new Rota(List.of())).hasMessageContaining("broker");
    }

    /** Lets attempts fail as soon as they begin; the pauses that followed, in seconds. */
    private static List<Long> pausesAfterFailures(SenderRig rig, int count) {
        List<Long> pauses = new ArrayList<>();
        rig.step();
        for (int i = 0; i < count; i++) {
            rig.broker.last().tellEnd(0, "Connection refused");
            rig.step();
            pauses.add(pauseUntilNextAttempt(rig));
        }
        return pauses;
    }

    private static long pauseUntilNextAttempt(SenderRig rig) {
        int before = rig.broker.sessions.size();
        for (long tenths = 1; tenths < 1_000; tenths++) {
            rig.pass(Duration.ofMillis(100));
            if (rig.broker.sessions.size() > before) {
                assertThat(tenths % 10).isZero();
                return tenths / 10;
            }
        }
        throw new AssertionError("no attempt within 100 s");
    }

    private List<String> warnings() {
        return log.list.stream()
                .filter(e -> e.getLevel().isGreaterOrEqual(Level.WARN))
                .map(ILoggingEvent::getFormattedMessage)
                .toList();
    }
}
