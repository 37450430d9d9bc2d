package burnerbridge.mqtt;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.mqtt.broker.Broker.Message;
import burnerbridge.mqtt.broker.FakeBroker.FakeSession;
import java.time.Duration;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class SenderReadBackTest {
    private static final Duration SECOND = Duration.ofSeconds(1);
    private static final String BASE = SenderRig.BASE;
    private static final String ABOUT = BASE + "boiler-1/about";

    @Test
    void everyConnectionAsksForTheOldDescriptionsAndThenDescribesAnew() {
        SenderRig rig = opened();
        assertThat(session(rig).subscribed).containsExactly(BASE + "+/about");
        assertThat(session(rig).sentOn(ABOUT)).isEmpty();

        rig.pass(SECOND.multipliedBy(2));

        assertThat(session(rig).subscribed).isEmpty();
        assertThat(session(rig).sentOn(ABOUT)).singleElement().satisfies(about -> {
            assertThat(about.retained()).isTrue();
            assertThat(about.expirySeconds()).isZero();
        });
        assertThat(session(rig).sentOn(BASE + "_self/about")).hasSize(1);

        session(rig).tellEnd(0, "reset by peer");
        rig.step();
        rig.pass(SECOND);
        open(rig);
        rig.pass(SECOND.multipliedBy(2));
        assertThat(rig.broker.sessions).hasSize(2);
        assertThat(session(rig).sentOn(ABOUT)).hasSize(1);
    }

    @Test
    void theTopicOfARemovedPointIsClearedBeforeTheNewDescriptionReplacesTheOld() {
        SenderRig rig = opened();

        session(rig).deliver(ABOUT, about("boiler-1", "burner-bridge-quillmere", "point-1", "oxygen"));
        rig.pass(SECOND.multipliedBy(2));

        List<String> topics = session(rig).topicsSent();
        assertThat(session(rig).sentOn(BASE + "boiler-1/oxygen"))
                .containsExactly(new Message(BASE + "boiler-1/oxygen", "", 0));
        assertThat(topics.indexOf(BASE + "boiler-1/oxygen")).isLessThan(topics.indexOf(ABOUT));
        assertThat(session(rig).sentOn(ABOUT)).hasSize(1);
        assertThat(session(rig).sentOn(BASE + "boiler-1/point-1"))
                .allMatch(m -> !m.payload().isEmpty());
    }

    @Test
    void aControllerThatIsGoneIsClearedWholeAndItsDescriptionLast() {
        SenderRig rig = opened();

        session(rig).deliver(BASE + "steam/about", about("steam", "burner-bridge-quillmere", "load", "oxygen"));
        rig.pass(SECOND.multipliedBy(2));

        assertThat(session(rig).sent.stream().filter(m -> m.payload().isEmpty()).map(Message::topic))
                .containsExactly(BASE + "steam/load", BASE + "steam/oxygen", BASE + "steam/link", BASE + "steam/about");
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "",
                "no json",
                "[]",
                "{\"site\":\"quillmere\",\"controller\":\"boiler-1\",\"points\":[{\"name\":\"oxygen\"}]}",
                "{\"site\":\"quillmere\",\"client\":\"another\",\"controller\":\"boiler-1\","
                        + "\"points\":[{\"name\":\"oxygen\"}]}",
                "{\"site\":\"other\",\"client\":\"burner-bridge-quillmere\",\"controller\":\"boiler-1\","
                        + "\"points\":[{\"name\":\"oxygen\"}]}",
                "{\"site\":\"quillmere\",\"client\":\"burner-bridge-quillmere\",\"controller\":\"boiler-2\","
                        + "\"points\":[{\"name\":\"oxygen\"}]}",
                "{\"site\":\"quillmere\",\"client\":\"burner-bridge-quillmere\",\"controller\":\"boiler-1\","
                        + "\"points\":[{\"name\":\"#\"},{\"name\":\"../x\"},{\"name\":\"a/b\"},{\"name\":\"+\"},7,null]}",
                "{\"site\":\"quillmere\",\"client\":\"burner-bridge-quillmere\",\"controller\":\"boiler-1\","
                        + "\"points\":\"oxygen\"}"
            })
    void whatAnotherWroteOrWhatIsNoNameClearsNothing(String payload) {
        SenderRig rig = opened();

        session(rig).deliver(ABOUT, payload);
        session(rig).deliver(BASE + "_self/about", payload);
        session(rig).deliver("plant/heat/elsewhere/boiler-1/about", payload);
        rig.pass(SECOND.multipliedBy(2));

        assertThat(session(rig).sent).noneMatch(m -> m.payload().isEmpty());
        assertThat(session(rig).sentOn(ABOUT)).hasSize(1);
    }

    @Test
    void aConnectionThatBreaksBeforeAllIsForgottenLeavesTheOldDescriptionAlone() {
        SenderRig rig = opened();
        session(rig).answersAtOnce = false;
        session(rig).deliver(ABOUT, about("boiler-1", "burner-bridge-quillmere", "oxygen"));
        rig.pass(SECOND.multipliedBy(5));
        assertThat(session(rig).sentOn(BASE + "boiler-1/oxygen")).hasSize(1);
        assertThat(session(rig).sentOn(ABOUT)).isEmpty();

        session(rig).tellEnd(0, "reset by peer");
        rig.step();
        rig.pass(SECOND.multipliedBy(3));
        open(rig);
        session(rig).deliver(ABOUT, about("boiler-1", "burner-bridge-quillmere", "oxygen"));
        rig.pass(SECOND.multipliedBy(2));

        assertThat(session(rig).sentOn(BASE + "boiler-1/oxygen")).hasSize(1);
        assertThat(session(rig).sentOn(ABOUT)).hasSize(1);
    }

    @Test
    void aBrokerThatDoesNotLetDescriptionsBeReadGetsThemAllTheSame() {
        SenderRig rig = new SenderRig(TestPlant.siteOf(1), "mqtt://one");
        rig.step();
        session(rig).open(100);
        rig.step();
        session(rig).answersAtOnce = true;
        session(rig).answerAll();

        session(rig).grant(0x87);
        rig.step();
        rig.settle();

        assertThat(session(rig).sentOn(ABOUT)).hasSize(1);
    }

    @Test
    void aBrokerThatAnswersNoSubscriptionIsWaitedForTenSeconds() {
        SenderRig rig = new SenderRig(TestPlant.siteOf(1), "mqtt://one");
        rig.step();
        session(rig).open(100);
        rig.step();
        session(rig).answersAtOnce = true;
        session(rig).answerAll();

        rig.pass(SECOND.multipliedBy(9));
        assertThat(session(rig).sentOn(ABOUT)).isEmpty();
        rig.pass(SECOND.multipliedBy(2));

        assertThat(session(rig).sentOn(ABOUT)).hasSize(1);
    }

    @Test
    void descriptionsAreNotRepeatedAndCostNoSteps() {
        SenderRig rig = SenderRig.connected(TestPlant.siteOf(1));

        int steps = rig.pass(Duration.ofMinutes(10));

        assertThat(session(rig).sentOn(ABOUT)).isEmpty();
        assertThat(steps).isLessThan(800);
    }

    private static SenderRig opened() {
        SenderRig rig = new SenderRig(TestPlant.siteOf(1), "mqtt://one");
        rig.step();
        open(rig);
        return rig;
    }

    private static void open(SenderRig rig) {
        session(rig).answersAtOnce = true;
        session(rig).open(100);
        rig.settle();
    }

    private static FakeSession session(SenderRig rig) {
        return rig.broker.last();
    }

    private static String about(String controller, String client, String... points) {
        List<String> names =
                List.of(points).stream().map(p -> "{\"name\":\"" + p + "\"}").toList();
        return "{\"site\":\"quillmere\",\"client\":\"" + client + "\",\"controller\":\"" + controller
                + "\",\"points\":[" + String.join(",", names) + "]}";
    }
}
