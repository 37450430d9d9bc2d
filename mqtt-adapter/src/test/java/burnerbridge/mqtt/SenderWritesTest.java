package burnerbridge.mqtt;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.mqtt.broker.Broker.Message;
import burnerbridge.mqtt.broker.Dispatch;
import burnerbridge.mqtt.broker.FakeBroker.FakeSession;
import burnerbridge.mqtt.broker.Octets;
import burnerbridge.site.Name;
import burnerbridge.site.PointId;
import burnerbridge.write.PermitStatus;
import burnerbridge.write.WriteEvent;
import burnerbridge.write.ask.Fate;
import burnerbridge.write.ask.Source;
import java.math.BigDecimal;
import java.time.Duration;
import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;
import org.junit.jupiter.api.Test;

class SenderWritesTest {
    private static final Duration SECOND = Duration.ofSeconds(1);
    private static final PointId LOAD = new PointId(new Name("boiler-1"), new Name("load"));
    private static final String TOPIC = SenderRig.BASE + "boiler-1/load";
    private static final String EVENTS = SenderRig.BASE + "boiler-1/events";
    private static final Dispatch DISPATCH = new Dispatch(TOPIC + "/reply/x", Octets.of("c1"), OptionalLong.of(30));

    private final SenderRig rig = SenderRig.connected(TestPlant.writable());

    private void ask() {
        rig.broker.last().deliver(TOPIC + "/ask", "{\"value\": 55, \"by\": \"x\"}", false, DISPATCH);
        rig.step();
    }

    private void written() {
        rig.gate.became(rig.gate.asks.size() - 1, new Fate.Written(new BigDecimal("55")));
        rig.step();
    }

    private FakeSession connectAgain() {
        rig.broker.last().tellEnd(0, "gone");
        rig.step();
        rig.pass(SECOND.multipliedBy(2));
        FakeSession next = rig.broker.last();
        next.answersAtOnce = true;
        next.open(100);
        rig.settle();
        return next;
    }

    private static PermitStatus status(String value) {
        return new PermitStatus(
                LOAD,
                List.of(new PermitStatus.Held(
                        12,
                        new BigDecimal(value),
                        new Source.Mqtt("x"),
                        OptionalLong.of(Duration.ofSeconds(890).toNanos() + 1))),
                "",
                "",
                "",
                false,
                Optional.of(new BigDecimal(value)),
                Duration.ofMillis(1_500).toNanos(),
                3,
                OptionalLong.of(100));
    }

    @Test
    void everyConnectionSubscribesAnew() {
        String[] topics = {TOPIC + "/ask", SenderRig.BASE + "boiler-1/enable/ask"};
        assertThat(rig.broker.last().subscribed).contains(topics);
        assertThat(connectAgain().subscribed).contains(topics).doesNotContain(SenderRig.BASE + "boiler-1/limit/ask");
    }

    @Test
    void whereNobodyMayAskNothingIsSubscribedTo() {
        assertThat(SenderRig.connected(TestPlant.siteOf(2)).broker.last().subscribed)
                .isEmpty();
    }

    @Test
    void anAnswerIsSaidOnceAndNotKept() {
        ask();
        assertThat(rig.broker.last().sentOn(TOPIC + "/reply/x")).isEmpty();
        written();
        assertThat(rig.broker.last().sentOn(TOPIC + "/reply/x")).singleElement().satisfies(said -> {
            assertThat(said.retained()).isFalse();
            assertThat(said.expirySeconds()).isEqualTo(60);
            assertThat(said.correlation()).isEqualTo(Octets.of("c1"));
            assertThat(said.payload()).startsWith("{\"result\":\"accepted\",\"value\":55,");
        });
        rig.pass(Duration.ofMinutes(3));
        assertThat(rig.broker.last().sentOn(TOPIC + "/reply/x")).hasSize(1);
    }

    @Test
    void anAnswerOutlivesAConnectionAndNotItsAsker() {
        rig.broker.last().answersAtOnce = false;
        ask();
        written();
        assertThat(connectAgain().sentOn(TOPIC + "/reply/x")).hasSize(1);

        rig.broker
                .last()
                .deliver(
                        TOPIC + "/ask",
                        "{\"value\": 60, \"by\": \"x\"}",
                        false,
                        new Dispatch(TOPIC + "/reply/x", Octets.of("c2"), OptionalLong.of(30)));
        rig.step();
        rig.broker.last().tellEnd(0, "gone");
        rig.step();
        written();
        rig.pass(Duration.ofSeconds(61));
        FakeSession late = rig.broker.last();
        late.answersAtOnce = true;
        late.open(100);
        rig.settle();
        assertThat(late.sentOn(TOPIC + "/reply/x")).isEmpty();
    }

    @Test
    void answersOnOneTopicGoOneAfterTheOther() {
        FakeSession session = rig.broker.last();
        session.answersAtOnce = false;
        for (int i = 0; i < 3; i++) {
            session.deliver(TOPIC + "/ask", "no " + i, false, DISPATCH);
        }
        rig.step();
        assertThat(session.sentOn(TOPIC + "/reply/x")).hasSize(1);
        session.answersAtOnce = true;
        session.answer(TOPIC + "/reply/x", 0);
        rig.settle();
        assertThat(session.sentOn(TOPIC + "/reply/x")).hasSize(3);
    }

    @Test
    void whoLeavesAnswersNobodyAndAsksNothing() {
        rig.sender.leave(rig.clock.now());
        ask();
        assertThat(rig.gate.asks).isEmpty();
    }

    @Test
    void howAPermitStandsIsKeptSaidOnChangeAndRepeated() {
        rig.gate.statuses.put(LOAD, status("55"));
        rig.news.changed(LOAD);
        rig.step();
        assertThat(rig.broker.last().sentOn(TOPIC + "/permit"))
                .containsExactly(new Message(TOPIC + "/permit", """
                {"winner":12,"slots":[{"slot":12,"value":55,"source":"mqtt x","left":890,\
                "until":"2026-11-25T08:14:51.250Z"}],"unit":"%","readBack":55,"wait":2,"spent":3,"budget":100,\
                "sentAt":"2026-11-25T08:00:01.250Z","validFor":60,"sequence":1}""", 60, true));
        rig.pass(Duration.ofSeconds(31));
        assertThat(rig.broker.last().sentOn(TOPIC + "/permit")).hasSize(2);
        rig.gate.statuses.put(LOAD, status("60"));
        rig.news.changed(LOAD);
        rig.step();
        assertThat(rig.broker.last().sentOn(TOPIC + "/permit"))
                .hasSize(3)
                .last()
                .satisfies(said -> assertThat(said.payload()).contains("\"value\":60"));
        assertThat(connectAgain().sentOn(TOPIC + "/permit")).hasSize(1);
    }

    @Test
    void aPermitThatWasWithdrawnIsClearedAndOthersAreNot() {
        rig.broker.last().deliver(SenderRig.BASE + "boiler-1/about", "x");
        FakeSession session = aboutToBeRead();
        session.deliver(SenderRig.BASE + "boiler-1/about", """
                {"site":"quillmere","client":"burner-bridge-quillmere","controller":"boiler-1","points":[\
                {"name":"load","permit":{}},{"name":"former","permit":{}},{"name":"limit"}]}""");
        session.answersAtOnce = true;
        rig.pass(SECOND.multipliedBy(3));
        rig.settle();
        assertThat(session.sent.stream().filter(said -> said.payload().isEmpty()))
                .extracting(Message::topic)
                .containsExactlyInAnyOrder(
                        SenderRig.BASE + "boiler-1/former", SenderRig.BASE + "boiler-1/former/permit");
    }

    private FakeSession aboutToBeRead() {
        rig.broker.last().tellEnd(0, "gone");
        rig.step();
        rig.pass(SECOND.multipliedBy(2));
        FakeSession next = rig.broker.last();
        next.open(100);
        rig.step();
        next.grant(SenderRig.BASE + "+/about", 0);
        rig.step();
        next.answerAll();
        return next;
    }

    @Test
    void theAboutMessageListsWhatMayBeAskedForWithTheCaution() {
        FakeSession session = connectAgain();
        rig.pass(SECOND.multipliedBy(3));
        rig.settle();
        assertThat(session.sentOn(SenderRig.BASE + "boiler-1/about"))
                .singleElement()
                .satisfies(
                        said -> assertThat(said.payload())
                                .contains("\"caution\":\"This is not a safety device")
                                .contains(
                                        "\"permit\":{\"allowed\":\"20..90\",\"interval\":60,\"silenceAfter\":900,\"mqtt\":true,\"slot\":12}"));
    }

    @Test
    void whatBecameOfAWriteIsAnEventWithItsPointAndItsOwnTime() {
        rig.news.told(new WriteEvent(WriteEvent.Kind.WRITTEN, LOAD, "mqtt x wrote 55"));
        rig.clock.forward(SECOND);
        rig.step();
        assertThat(rig.broker.last().sentOn(EVENTS)).containsExactly(new Message(EVENTS, """
                {"id":"start-1-2","event":"written","point":"load","detail":"mqtt x wrote 55",\
                "at":"2026-11-25T08:00:01.250Z","sentAt":"2026-11-25T08:00:02.250Z"}""", 0, false));
    }

    @Test
    void everyKindOfEventHasAWordOfItsOwn() {
        for (WriteEvent.Kind kind : WriteEvent.Kind.values()) {
            rig.news.told(new WriteEvent(kind, LOAD, "so"));
        }
        rig.settle();
        assertThat(rig.broker.last().sentOn(EVENTS))
                .hasSize(WriteEvent.Kind.values().length)
                .extracting(said -> said.payload().replaceAll(".*\"event\":\"([a-z-]+)\".*", "$1"))
                .containsExactly(
                        "write-refused",
                        "written",
                        "write-failed",
                        "write-held",
                        "lease-ended",
                        "silence",
                        "permit-asleep");
    }

    @Test
    void newsThatNobodyTakesAreBounded() {
        for (int i = 0; i < 3 * WriteNews.MOST_WAITING; i++) {
            rig.news.told(new WriteEvent(WriteEvent.Kind.REFUSED, LOAD, "no " + i));
            rig.news.changed(LOAD);
        }
        assertThat(rig.news.permits()).containsExactly(LOAD);
        assertThat(rig.news.events())
                .hasSize(WriteNews.MOST_WAITING)
                .last()
                .satisfies(heard ->
                        assertThat(heard.event().sentence()).isEqualTo("no " + (3 * WriteNews.MOST_WAITING - 1)));
    }
}
