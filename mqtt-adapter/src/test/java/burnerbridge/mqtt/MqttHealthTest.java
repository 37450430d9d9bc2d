package burnerbridge.mqtt;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.health.Trouble;
import burnerbridge.model.Stamp;
import burnerbridge.mqtt.broker.FakeBroker.FakeSession;
import java.time.Duration;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

final class MqttHealthTest {
    private static Map<String, Double> figures(SenderRig rig) {
        return Told.figures(sink -> rig.figures.measure(sink, rig.clock.ticks()));
    }

    private static double figure(SenderRig rig, String sample) {
        return figures(rig).getOrDefault("burner_bridge_mqtt_" + sample, Double.NaN);
    }

    @Test
    void beforeTheFirstConnectionNothingIsReady() {
        SenderRig rig = new SenderRig(TestPlant.siteOf(1), "mqtt://one");
        assertThat(Told.sentences(rig.sender))
                .containsExactly(
                        "not-ready broker mqtt: not connected: the first attempt is on its way to mqtt://one; look"
                                + " at the broker: whether it runs there, and lets this client in");
        assertThat(figure(rig, "connected[]")).isZero();
    }

    @ParameterizedTest
    @CsvSource({
        "Connection refused, broker",
        "0x87 not authorized, broker",
        "unknown host broker.example, network",
        "Network is unreachable, network",
        "No route to host, network",
        "Connect timed out, network",
    })
    void withoutAConnectionItSaysWhatWasSeenLastAndWhereToLook(String detail, String place) {
        SenderRig rig = new SenderRig(TestPlant.siteOf(1), "mqtt://one");
        rig.step();
        rig.broker.last().tellEnd(0, detail);
        rig.step();
        assertThat(Told.sentences(rig.sender))
                .singleElement()
                .asString()
                .startsWith("not-ready " + place + " mqtt: not connected: mqtt://one: cannot connect: " + detail
                        + "; look");
        assertThat(figure(rig, "connection_ends[not-opened]")).isEqualTo(1);
    }

    @Test
    void itIsToldSinceTheConnectionWasLostAndNotSinceTheLatestAttempt() {
        SenderRig rig = SenderRig.connected(TestPlant.siteOf(1));
        assertThat(Told.troubles(rig.sender)).isEmpty();
        rig.pass(Duration.ofMinutes(1));
        Stamp lost = rig.clock.now();
        rig.broker.last().tellEnd(0, "reset by peer");
        rig.step();
        for (int i = 0; i < 5; i++) {
            rig.pass(Duration.ofSeconds(31));
            rig.broker.last().tellEnd(0, "Connection refused");
            rig.step();
        }
        assertThat(Told.troubles(rig.sender))
                .singleElement()
                .extracting(Trouble::since)
                .isEqualTo(lost);
        assertThat(figure(rig, "connection_ends[lost]")).isEqualTo(1);
        // Those five, and what was not answered within 15 s in between.
        assertThat(figure(rig, "connection_ends[not-opened]")).isGreaterThanOrEqualTo(5);
        assertThat(figure(rig, "connections[]")).isEqualTo(1);
        assertThat(figure(rig, "state_age_seconds[]")).isBetween(155.0, 160.0);

        rig.pass(Duration.ofSeconds(31));
        rig.broker.last().open(20);
        rig.step();
        assertThat(Told.troubles(rig.sender)).isEmpty();
        assertThat(figure(rig, "connected[]")).isEqualTo(1);
        assertThat(figure(rig, "connections[]")).isEqualTo(2);
    }

    @Test
    void whatTheBrokerRefusesIsToldUntilItTakesIt() {
        SenderRig rig = SenderRig.connected(TestPlant.siteOf(1));
        FakeSession session = rig.broker.last();
        session.answersAtOnce = false;
        rig.publish(0, TestPlant.real(1, rig.clock.now()));
        rig.step();
        assertThat(figure(rig, "in_flight_messages[]")).isEqualTo(1);
        double before = figure(rig, "acknowledged_messages[]");
        session.answer(rig.topicOf(0), 0x87);
        rig.step();

        assertThat(Told.sentences(rig.sender))
                .containsExactly("degraded broker mqtt: the broker refuses " + rig.topicOf(0) + ": 0x87"
                        + " not authorized; look at the rights of the bridge's user on the broker; documents writes the"
                        + " list that they need");
        assertThat(figure(rig, "refused_messages[not-authorized]")).isEqualTo(1);
        assertThat(figure(rig, "refused_topics[]")).isEqualTo(1);

        session.answersAtOnce = true;
        rig.pass(Duration.ofSeconds(10));
        rig.settle();
        assertThat(Told.troubles(rig.sender)).isEmpty();
        assertThat(figure(rig, "acknowledged_messages[]")).isGreaterThan(before);
        assertThat(figure(rig, "refused_topics[]")).isZero();
        assertThat(figure(rig, "in_flight_messages[]")).isZero();
    }

    /** What an asker chose as the place of its answer must not fill memory, nor stand as a trouble for ever. */
    @Test
    void anAnswerThatTheBrokerRefusesIsCountedAndForgotten() {
        SenderRig rig = SenderRig.connected(TestPlant.siteOf(1));
        RefusalLog refusals = new RefusalLog();
        for (int i = 0; i < 1_000; i++) {
            refusals.replyRefused("somewhere/" + i, new burnerbridge.mqtt.broker.ReasonCode(0x87));
        }
        assertThat(refusals.count()).isZero();
        assertThat(Told.troubles(refusals)).isEmpty();
        assertThat(Told.troubles(rig.sender)).isEmpty();
    }

    @Test
    void withoutAConnectionEveryTopicIsOwed() {
        SenderRig rig = SenderRig.connected(TestPlant.siteOf(3));
        assertThat(figure(rig, "owed_topics[]")).isZero();
        rig.broker.last().tellEnd(0, "reset by peer");
        rig.step();
        // Three points, the controller's link and the bridge's.
        assertThat(figure(rig, "owed_topics[]")).isEqualTo(5);
    }
}
