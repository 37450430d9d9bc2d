package burnerbridge.mqtt;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.mqtt.broker.Broker.Message;
import burnerbridge.mqtt.broker.FakeBroker.FakeSession;
import burnerbridge.table.ControllerLink;
import burnerbridge.table.ControllerLink.Cause;
import java.time.Duration;
import java.util.List;
import org.junit.jupiter.api.Test;

class SenderEventsTest {
    private static final Duration SECOND = Duration.ofSeconds(1);
    private static final String EVENTS = SenderRig.BASE + "boiler-1/events";
    private static final String OWN = SenderRig.BASE + "_self/events";

    @Test
    void aLostAndRecoveredControllerIsTwoEventsThatNobodyRetains() {
        SenderRig rig = SenderRig.connected(TestPlant.siteOf(1));
        up(rig);
        down(rig, "three reads in a row were not answered");
        up(rig);

        assertThat(rig.broker.last().sentOn(EVENTS))
                .containsExactly(new Message(EVENTS, """
                        {"id":"start-1-2","event":"communication-lost","reason":"no-reply",\
                        "detail":"three reads in a row were not answered","at":"2026-11-25T08:00:02.250Z",\
                        "sentAt":"2026-11-25T08:00:02.250Z"}""", 0, false), new Message(EVENTS, """
                        {"id":"start-1-3","event":"communication-back","at":"2026-11-25T08:00:03.250Z",\
                        "sentAt":"2026-11-25T08:00:03.250Z"}""", 0, false));
    }

    @Test
    void anotherCauseOfTheSameLossIsNoEvent() {
        SenderRig rig = SenderRig.connected(TestPlant.siteOf(1));
        down(rig, "one");
        down(rig, "two");

        assertThat(rig.broker.last().sentOn(EVENTS)).hasSize(1);
    }

    @Test
    void whatHappensWhileTheBrokerIsAwayIsSaidLaterInOrderWithItsOwnTime() {
        SenderRig rig = SenderRig.connected(TestPlant.siteOf(1));
        rig.broker.last().tellEnd(0, "gone");
        rig.step();
        down(rig, "gone");
        up(rig);
        FakeSession next = rig.broker.last();
        next.answersAtOnce = true;
        next.open(100);
        rig.settle();

        assertThat(next.sentOn(EVENTS))
                .extracting(Message::payload)
                .satisfiesExactly(
                        lost -> assertThat(lost).contains("communication-lost", "\"at\":\"2026-11-25T08:00:01.250Z\""),
                        back -> assertThat(back).contains("communication-back", "\"at\":\"2026-11-25T08:00:02.250Z\""));
    }

    @Test
    void anEventUnderWayWhenTheConnectionBreaksIsSaidAgainWithTheSameId() {
        SenderRig rig = SenderRig.connected(TestPlant.siteOf(1));
        rig.broker.last().answersAtOnce = false;
        down(rig, "gone");
        String before = rig.broker.last().sentOn(EVENTS).get(0).payload();

        rig.broker.last().tellEnd(0, "gone");
        rig.step();
        rig.pass(SECOND);
        rig.broker.last().answersAtOnce = true;
        rig.broker.last().open(100);
        rig.settle();

        assertThat(rig.broker.last().sentOn(EVENTS))
                .singleElement()
                .satisfies(m -> assertThat(m.payload()).startsWith(before.substring(0, 30)));
        rig.pass(Duration.ofMinutes(2));
        assertThat(rig.broker.last().sentOn(EVENTS)).hasSize(1);
    }

    @Test
    void aHundredEventsWaitAndTheOlderOnesAreCounted() {
        SenderRig rig = SenderRig.connected(TestPlant.siteOf(1));
        rig.broker.last().tellEnd(0, "gone");
        rig.step();
        for (int i = 0; i < 60; i++) {
            tell(rig, ControllerLink.down(Cause.NO_REPLY, "gone", rig.clock.now()));
            tell(rig, ControllerLink.up(rig.clock.now()));
        }
        rig.pass(SECOND);
        FakeSession next = rig.broker.last();
        next.answersAtOnce = true;
        next.open(100);
        rig.settle();

        List<Message> sent = next.sentOn(EVENTS);
        assertThat(sent).hasSize(100);
        assertThat(sent.get(0).payload()).contains("\"id\":\"start-1-22\"", "\"givenUp\":20");
        assertThat(sent.get(1).payload()).contains("\"id\":\"start-1-23\"").doesNotContain("givenUp");
        assertThat(sent.get(99).payload()).contains("\"id\":\"start-1-121\"");
    }

    @Test
    void theStartIsSaidOnceHoweverOftenTheConnectionBreaks() {
        SenderRig rig = new SenderRig(TestPlant.siteOf(1), "mqtt://one");
        rig.step();
        for (int i = 0; i < 3; i++) {
            rig.broker.last().answersAtOnce = true;
            rig.broker.last().open(100);
            rig.settle();
            rig.broker.last().tellEnd(0, "gone");
            rig.step();
            rig.pass(SECOND.multipliedBy(5));
        }

        assertThat(rig.broker.sessions).hasSizeGreaterThanOrEqualTo(3);
        assertThat(rig.broker.sessions.stream().flatMap(s -> s.sentOn(OWN).stream()))
                .singleElement()
                .satisfies(m -> assertThat(m.payload()).contains("\"event\":\"started\""));
    }

    @Test
    void anEventTopicThatTheBrokerRefusesDoesNotHoldUpTheEnd() {
        SenderRig rig = SenderRig.connected(TestPlant.siteOf(1));
        FakeSession session = rig.broker.last();
        session.answersAtOnce = false;
        rig.sender.leave(rig.clock.now());
        rig.step();
        session.answer(SenderRig.BRIDGE, 0);
        rig.step();
        assertThat(session.wasEnded).isFalse();

        session.answer(OWN, 0x87);
        rig.step();

        assertThat(session.wasEnded).isTrue();
    }

    private static void down(SenderRig rig, String detail) {
        rig.table.publish(rig.table.controllers().get(0), ControllerLink.down(Cause.NO_REPLY, detail, rig.clock.now()));
        rig.step();
        rig.pass(SECOND);
    }

    private static void up(SenderRig rig) {
        tell(rig, ControllerLink.up(rig.clock.now()));
        rig.pass(SECOND);
    }

    private static void tell(SenderRig rig, ControllerLink link) {
        rig.table.publish(rig.table.controllers().get(0), link);
        rig.step();
    }
}
