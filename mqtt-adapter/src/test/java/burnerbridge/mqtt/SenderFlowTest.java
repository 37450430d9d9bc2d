package burnerbridge.mqtt;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.mqtt.broker.Broker.Message;
import burnerbridge.mqtt.broker.FakeBroker.FakeSession;
import ch.qos.logback.classic.Level;
import ch.qos.logback.classic.Logger;
import ch.qos.logback.classic.spi.ILoggingEvent;
import ch.qos.logback.core.read.ListAppender;
import java.time.Duration;
import java.util.HashSet;
import java.util.List;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.slf4j.LoggerFactory;

class SenderFlowTest {
    private static final Duration SECOND = Duration.ofSeconds(1);
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

    @ParameterizedTest
    @CsvSource({"1, 1", "2, 2", "20, 20", "64, 64", "65, 64", "65535, 64"})
    void noMoreIsUnderWayThanTheBrokerAllowsAndNeverMoreThanSixtyFour(int receiveMaximum, int expected) {
        SenderRig rig = new SenderRig(TestPlant.siteOf(200), "mqtt://one");
        rig.step();
        FakeSession session = rig.broker.last();
        session.open(receiveMaximum);
        rig.step();
        assertThat(session.unanswered).hasSize(expected);

        for (int i = 0; i < 300; i++) {
            if (!session.unanswered.isEmpty()) {
                session.answer(session.unanswered.iterator().next(), 0);
            }
            rig.step();
        }

        assertThat(session.mostUnanswered).isEqualTo(expected);
        // The points, the two links and that the bridge started.
        assertThat(new HashSet<>(session.topicsSent())).hasSize(203);
        assertThat(session.sent).hasSize(203);
    }

    @Test
    void whatChangesWhileAMessageIsUnderWayIsSentAfterItsAcknowledgementAndOnlyTheNewest() {
        SenderRig rig = SenderRig.connected(TestPlant.siteOf(1));
        FakeSession session = rig.broker.last();
        session.answersAtOnce = false;
        for (int value = 1; value <= 5; value++) {
            rig.publish(0, TestPlant.real(value, rig.clock.now()));
            rig.step();
        }
        assertThat(rig.sentOf(0)).hasSize(1);

        session.answerAll();
        rig.step();

        assertThat(rig.sentOf(0)).hasSize(2);
        assertThat(rig.sentOf(0).get(1).payload()).startsWith("{\"value\":5.0,");
    }

    @Test
    void afterALostConnectionEverythingIsSentAgainAcknowledgedOrNot() {
        SenderRig rig = SenderRig.connected(TestPlant.siteOf(3));
        rig.broker.last().answersAtOnce = false;
        rig.publish(1, TestPlant.real(1, rig.clock.now()));
        rig.step();

        rig.broker.last().tellEnd(0, "reset by peer");
        rig.step();
        rig.publish(2, TestPlant.real(7, rig.clock.now()));
        rig.pass(SECOND);
        rig.broker.last().open(100);
        rig.step();

        assertThat(rig.broker.sessions).hasSize(2);
        assertThat(rig.broker.last().topicsSent())
                .containsExactly(
                        SenderRig.BRIDGE,
                        SenderRig.BASE + "boiler-1/link",
                        rig.topicOf(0),
                        rig.topicOf(1),
                        rig.topicOf(2));
        assertThat(rig.sentOf(2).get(0).payload()).startsWith("{\"value\":7.0,");
    }

    @Test
    void aReasonBelow128IsASuccess() {
        SenderRig rig = SenderRig.connected(TestPlant.siteOf(1));
        FakeSession session = rig.broker.last();
        session.answersAtOnce = false;
        rig.publish(0, TestPlant.real(1, rig.clock.now()));
        rig.step();
        session.answer(rig.topicOf(0), 16);
        rig.pass(SECOND);

        assertThat(rig.sentOf(0)).hasSize(1);
        assertThat(warnings()).isEmpty();
    }

    @Test
    void aRefusedTopicIsToldOnceAndTriedAgainAtItsHeartbeatThoughItsValueChanges() {
        SenderRig rig = SenderRig.connected(TestPlant.siteOf(1));
        FakeSession session = rig.broker.last();
        session.answersAtOnce = false;
        int changes = 0;
        for (int i = 0; i < 20; i++) {
            rig.publish(0, TestPlant.real(++changes, rig.clock.now()));
            rig.step();
            if (session.unanswered.contains(rig.topicOf(0))) {
                session.answer(rig.topicOf(0), 0x87);
            }
            rig.pass(SECOND);
            session.unanswered.stream()
                    .filter(topic -> !topic.equals(rig.topicOf(0)))
                    .toList()
                    .forEach(topic -> session.answer(topic, 0));
        }

        // At once, and then every five seconds: half of ten.
        assertThat(rig.sentOf(0)).hasSize(4);
        assertThat(warnings())
                .singleElement()
                .asString()
                .contains(rig.topicOf(0))
                .contains("0x87 not authorized");
    }

    @Test
    void aRefusedTopicIsTriedAgainWithoutAnyChangeAndThenTold() {
        SenderRig rig = SenderRig.connected(TestPlant.siteOf(1));
        FakeSession session = rig.broker.last();
        session.answersAtOnce = false;
        rig.publish(0, TestPlant.real(1, rig.clock.now()));
        rig.step();
        session.answer(rig.topicOf(0), 0x97);
        rig.step();

        session.answersAtOnce = true;
        rig.pass(SECOND.multipliedBy(6));

        assertThat(rig.sentOf(0)).hasSize(2);
        assertThat(log.list).anyMatch(e -> e.getFormattedMessage().contains("refuses no topic any more"));
    }

    @Test
    void manyRefusedTopicsDoNotFillTheLog() {
        SenderRig rig = new SenderRig(TestPlant.siteOf(500), "mqtt://one");
        rig.step();
        FakeSession session = rig.broker.last();
        session.open(50);
        for (int i = 0; i < 1_000; i++) {
            rig.step();
            if (!session.unanswered.isEmpty()) {
                session.answer(session.unanswered.iterator().next(), 0x87);
            }
        }

        assertThat(warnings()).hasSize(RefusalLog.MOST_TOLD + 1);
    }

    @Test
    void aBrokerThatAcknowledgesNothingIsLeftAfterTenSeconds() {
        SenderRig rig = SenderRig.connected(TestPlant.siteOf(1));
        FakeSession session = rig.broker.last();
        session.answersAtOnce = false;
        rig.publish(0, TestPlant.real(1, rig.clock.now()));
        rig.step();

        rig.pass(SECOND.multipliedBy(9));
        assertThat(session.wasCut).isFalse();
        rig.pass(SECOND.multipliedBy(3));

        assertThat(session.wasCut).isTrue();
        assertThat(rig.broker.sessions).hasSize(2);
    }

    @Test
    void onLeavingTheLastMessageSaysStoppedAndOnlyThenTheConnectionEnds() {
        SenderRig rig = SenderRig.connected(TestPlant.siteOf(1));
        FakeSession session = rig.broker.last();
        session.answersAtOnce = false;

        rig.sender.leave(rig.clock.now());
        rig.publish(0, TestPlant.real(1, rig.clock.now()));
        rig.step();
        assertThat(session.sent)
                .containsExactly(
                        new Message(SenderRig.BASE + "_self/events", """
                        {"id":"start-1-2","event":"stopped","at":"2026-11-25T08:00:01.250Z",\
                        "sentAt":"2026-11-25T08:00:01.250Z"}""", 0, false),
                        new Message(SenderRig.BRIDGE, """
                        {"state":"down","reason":"stopped","start":"start-1","since":"2026-11-25T08:00:01.250Z",\
                        "sentAt":"2026-11-25T08:00:01.250Z","sequence":2}""", 0));
        assertThat(session.wasEnded).isFalse();

        session.answerAll();
        rig.step();
        assertThat(session.wasEnded).isTrue();
        assertThat(rig.sender.isGone()).isFalse();

        session.tellEnd(0, "disconnected");
        rig.step();
        assertThat(rig.sender.isGone()).isTrue();
        assertThat(rig.broker.sessions).hasSize(1);
        assertThat(rig.sender.state().detail()).isEqualTo("stopped");
        assertThat(warnings()).isEmpty();
    }

    @Test
    void onLeavingAFullWindowIsWaitedForAndThenOnlyTheBridgeIsSent() {
        SenderRig rig = new SenderRig(TestPlant.siteOf(10), "mqtt://one");
        rig.step();
        FakeSession session = rig.broker.last();
        session.open(2);
        rig.step();
        assertThat(session.unanswered).hasSize(2);

        rig.sender.leave(rig.clock.now());
        for (int i = 0; i < 5; i++) {
            session.answerAll();
            rig.step();
        }

        assertThat(session.topicsSent().subList(2, 5))
                .containsExactly(SenderRig.BASE + "_self/events", SenderRig.BRIDGE, SenderRig.BASE + "_self/events");
        assertThat(session.sent.get(3).payload()).contains("\"reason\":\"stopped\"");
        assertThat(session.sent.get(4).payload()).contains("\"event\":\"stopped\"");
        assertThat(session.wasEnded).isTrue();
    }

    @Test
    void leavingASilentBrokerIsOverInTime() {
        SenderRig rig = SenderRig.connected(TestPlant.siteOf(1));
        FakeSession session = rig.broker.last();
        session.answersAtOnce = false;

        rig.sender.leave(rig.clock.now());
        rig.pass(Duration.ofMillis(2_300));

        assertThat(rig.sender.isGone()).isTrue();
        assertThat(session.wasEnded).isTrue();
        assertThat(session.wasCut).isTrue();
    }

    @Test
    void leavingWithoutAConnectionIsOverAtOnce() {
        SenderRig rig = new SenderRig(TestPlant.siteOf(1), "mqtt://one");
        rig.step();

        rig.sender.leave(rig.clock.now());
        rig.step();

        assertThat(rig.sender.isGone()).isTrue();
        assertThat(rig.broker.last().wasCut).isTrue();
    }

    private List<String> warnings() {
        return log.list.stream()
                .filter(e -> e.getLevel().isGreaterOrEqual(Level.WARN))
                .map(ILoggingEvent::getFormattedMessage)
                .toList();
    }
}
