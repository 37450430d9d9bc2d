package burnerbridge.mqtt;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.model.HandClock;
import burnerbridge.model.Reading;
import burnerbridge.mqtt.access.AccessFiles;
import burnerbridge.mqtt.broker.Broker.Event;
import burnerbridge.mqtt.broker.Broker.Message;
import burnerbridge.mqtt.broker.FakeBroker;
import burnerbridge.mqtt.door.AskDoor;
import burnerbridge.mqtt.door.FakeGate;
import burnerbridge.mqtt.topic.SiteTopics;
import burnerbridge.mqtt.watch.MqttFigures;
import burnerbridge.site.MqttSettings;
import burnerbridge.site.Site;
import burnerbridge.site.SitePoint;
import burnerbridge.table.ChangeFeed;
import burnerbridge.table.ValueTable;
import java.time.Duration;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/** A sender with a hand clock, a fake broker and a table, stepped by a test. */
final class SenderRig {
    static final String BASE = "plant/heat/quillmere/";
    static final String BRIDGE = BASE + "_self/link";

    final HandClock clock = new HandClock();
    final FakeBroker broker = new FakeBroker();
    final Inbox<Event> inbox = new Inbox<>();
    final ValueTable table;
    final Sender sender;
    final MqttFigures figures;
    final FakeGate gate = new FakeGate();
    final WriteNews news = new WriteNews(clock);
    private final ChangeFeed feed;

    SenderRig(Site site, String... brokers) {
        table = TestPlant.table(site);
        feed = table.subscribe();
        MqttSettings settings = TestPlant.settings(brokers);
        SiteTopics topics =
                new SiteTopics(settings, site, table, "start-1", clock.now(), Optional.of(point -> gate.status(point)));
        AskDoor door = new AskDoor(settings, site, gate, clock);
        AccessWatch access = new AccessWatch(new AccessFiles(settings, Map.of()));
        figures = new MqttFigures(clock.now());
        sender = new Sender(
                topics,
                new Connector(
                        broker,
                        settings.brokers(),
                        settings.clientIdOf(site.name()),
                        topics.will(),
                        access,
                        event -> {
                            if (event instanceof Event.Arrived arrived && door.takes(arrived.topic())) {
                                door.offer(arrived);
                            } else {
                                inbox.post(event);
                            }
                        },
                        figures,
                        clock.now()),
                new WriteDesk(site, Optional.of(door), news),
                figures);
    }

    /** A rig of a site that was connected a second ago, with every topic told and acknowledged. */
    static SenderRig connected(Site site) {
        SenderRig rig = new SenderRig(site, "mqtt://one");
        rig.step();
        rig.broker.last().answersAtOnce = true;
        rig.broker.last().open(65_535);
        rig.settle();
        rig.pass(Duration.ofSeconds(1));
        rig.settle();
        rig.broker.last().sent.clear();
        return rig;
    }

    void step() {
        sender.step(clock.now(), feed.drain(), inbox.drain());
    }

    /** Steps until nothing more is to be done at this moment. */
    void settle() {
        for (int i = 0; i < 10_000; i++) {
            step();
            if (sender.nextDue() - clock.ticks() > 0 && !sender.isAwaitingBroker()) {
                return;
            }
        }
        throw new AssertionError("the sender does not come to rest");
    }

    /** Lets time pass, stepping whenever a step is due; returns how many steps it took. */
    int pass(Duration time) {
        long end = clock.ticks() + time.toNanos();
        int steps = 0;
        while (end - clock.ticks() > 0) {
            long wait = Math.min(Math.max(sender.nextDue() - clock.ticks(), 0), end - clock.ticks());
            clock.forward(Duration.ofNanos(wait));
            step();
            assertThat(++steps).as("steps within " + time).isLessThan(10_000);
        }
        return steps;
    }

    void publish(int point, Reading reading) {
        table.publish(sitePoint(point), reading);
    }

    SitePoint sitePoint(int point) {
        return table.points().get(point);
    }

    /** The messages of a point on the last connection. */
    List<Message> sentOf(int point) {
        return broker.last().sentOn(topicOf(point));
    }

    String topicOf(int point) {
        SitePoint site = sitePoint(point);
        return BASE + site.controller().name() + "/" + site.definition().name();
    }
}
