package burnerbridge.mqtt.topic;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.model.HandClock;
import burnerbridge.model.Stamp;
import burnerbridge.mqtt.TestPlant;
import burnerbridge.mqtt.payload.Telling;
import burnerbridge.site.ControllerDefinition;
import burnerbridge.site.Site;
import burnerbridge.table.ControllerLink;
import burnerbridge.table.ValueTable;
import java.time.Duration;
import java.util.Objects;
import org.junit.jupiter.api.Test;

class SiteTopicsTest {
    private final HandClock clock = new HandClock();
    private final Site site = TestPlant.site(2, TestPlant.point("load"), TestPlant.point("oxygen"));
    private final ValueTable table = TestPlant.table(site);
    private final SiteTopics topics =
            new SiteTopics(TestPlant.settings("mqtt://one"), site, table, "start-1", clock.now());

    @Test
    void everyPointAndLinkHasATopic() {
        assertThat(topics.bridge().topic()).isEqualTo("plant/heat/quillmere/_self/link");
        assertThat(topics.controllers())
                .extracting(Teller::topic)
                .containsExactly("plant/heat/quillmere/boiler-1/link", "plant/heat/quillmere/boiler-2/link");
        assertThat(topics.points().values())
                .extracting(Teller::topic)
                .containsExactly(
                        "plant/heat/quillmere/boiler-1/load",
                        "plant/heat/quillmere/boiler-1/oxygen",
                        "plant/heat/quillmere/boiler-2/load",
                        "plant/heat/quillmere/boiler-2/oxygen");
    }

    @Test
    void aPointThatMayBeWrittenHasATopicForItsPermitAndWhereMqttMayAskForAsksAndAnswers() {
        Site writable = TestPlant.writable();
        assertThat(OwnTopic.all("plant/heat", writable))
                .extracting(OwnTopic::topic)
                .contains(
                        "plant/heat/quillmere/boiler-1/load/permit",
                        "plant/heat/quillmere/boiler-1/load/ask",
                        "plant/heat/quillmere/boiler-1/load/reply",
                        "plant/heat/quillmere/boiler-1/limit/permit")
                .doesNotContain("plant/heat/quillmere/boiler-1/limit/ask", "plant/heat/quillmere/boiler-1/limit/reply");
        assertThat(OwnTopic.all("plant/heat", site))
                .extracting(OwnTopic::topic)
                .noneMatch(topic -> topic.endsWith("/permit") || topic.endsWith("/ask"));
    }

    @Test
    void aPointThatIsNeverReadHasNoTopic() {
        Site withReset =
                TestPlant.site(1, TestPlant.point("load"), TestPlant.neverRead("reset"), TestPlant.point("oxygen"));
        SiteTopics some = new SiteTopics(
                TestPlant.settings("mqtt://one"), withReset, TestPlant.table(withReset), "start-1", clock.now());
        assertThat(some.points()).containsOnlyKeys(0, 2);
        assertThat(some.points().values())
                .extracting(Teller::topic)
                .containsExactly("plant/heat/quillmere/boiler-1/load", "plant/heat/quillmere/boiler-1/oxygen");
    }

    @Test
    void aMessageIsNotMadeBeforeItsRegistersWereAskedFor() {
        Stamp looked = clock.now();
        clock.forward(Duration.ofMillis(2));
        table.publish(site.points().get(0), TestPlant.real(42.5, clock.now()));
        Teller load = Objects.requireNonNull(topics.points().get(0));
        assertThat(load.tell(looked, 1).orElseThrow().payload())
                .contains("\"readAt\":\"2026-11-25T08:00:00.252Z\",\"sentAt\":\"2026-11-25T08:00:00.252Z\"");
        clock.forward(Duration.ofMillis(5));
        assertThat(load.tell(clock.now(), 2).orElseThrow().payload())
                .contains("\"readAt\":\"2026-11-25T08:00:00.252Z\",\"sentAt\":\"2026-11-25T08:00:00.257Z\"");
    }

    @Test
    void theBridgeIsUpForAMinuteAndStoppedForEver() {
        clock.forward(Duration.ofSeconds(5));
        assertThat(topics.bridge().tell(clock.now(), 2)).contains(new Telling("""
                        {"state":"up","start":"start-1","since":"2026-11-25T08:00:00.250Z",\
                        "sentAt":"2026-11-25T08:00:05.250Z","validFor":60,"sequence":2}""", 60));
        assertThat(topics.bridge().hasNews()).isFalse();
        assertThat(topics.bridge().canBeProlonged()).isTrue();

        topics.stopping(clock.now());
        assertThat(topics.bridge().hasNews()).isTrue();
        clock.forward(Duration.ofSeconds(1));
        assertThat(topics.bridge().tell(clock.now(), 3)).contains(new Telling("""
                        {"state":"down","reason":"stopped","start":"start-1","since":"2026-11-25T08:00:05.250Z",\
                        "sentAt":"2026-11-25T08:00:06.250Z","sequence":3}""", 0));
        assertThat(topics.bridge().hasNews()).isFalse();
        assertThat(topics.bridge().canBeProlonged()).isFalse();
    }

    @Test
    void aControllersLinkIsUnknownThenUpThenDown() {
        ControllerDefinition boiler = site.controllers().get(0);
        Teller teller = topics.controllers().get(0);
        assertThat(teller.tell(clock.now(), 1)).contains(new Telling("""
                        {"state":"unknown","reason":"not-asked-yet","sentAt":"2026-11-25T08:00:00.250Z",\
                        "validFor":60,"sequence":1}""", 60));

        clock.believe(false);
        table.publish(boiler, ControllerLink.up(clock.now()));
        assertThat(teller.hasNews()).isTrue();
        assertThat(teller.tell(clock.now(), 2)).contains(new Telling("""
                        {"state":"up","since":"2026-11-25T08:00:00.250Z","sentAt":"2026-11-25T08:00:00.250Z",\
                        "clock":"unsure","validFor":60,"sequence":2}""", 60));
        assertThat(teller.hasNews()).isFalse();

        clock.believe(true);
        table.publish(boiler, ControllerLink.down(ControllerLink.Cause.LINE_DOWN, "line \"one\" is down", clock.now()));
        clock.forward(Duration.ofSeconds(2));
        assertThat(teller.tell(clock.now(), 3)).contains(new Telling("""
                        {"state":"down","reason":"line-down","detail":"line \\"one\\" is down",\
                        "since":"2026-11-25T08:00:00.250Z","sentAt":"2026-11-25T08:00:02.250Z",\
                        "validFor":60,"sequence":3}""", 60));
    }

    @Test
    void aPointsTellerKnowsWhatItSaidLast() {
        Teller teller = java.util.Objects.requireNonNull(topics.points().get(0));
        assertThat(teller.hasNews()).isTrue();
        teller.tell(clock.now(), 1);
        assertThat(teller.hasNews()).isFalse();
        assertThat(teller.canBeProlonged()).isTrue();

        table.publish(site.points().get(0), TestPlant.real(40, clock.now()));
        assertThat(teller.hasNews()).isTrue();
        teller.tell(clock.now(), 2);
        assertThat(teller.canBeProlonged()).isFalse();

        clock.forward(Duration.ofSeconds(2));
        table.publish(site.points().get(0), TestPlant.real(40, clock.now()));
        assertThat(teller.hasNews()).isFalse();
        assertThat(teller.canBeProlonged()).isTrue();

        clock.forward(Duration.ofSeconds(10));
        assertThat(teller.tell(clock.now(), 3)).isEmpty();
    }
}
