package burnerbridge.mqtt;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.model.HandClock;
import burnerbridge.model.Seed;
import burnerbridge.mqtt.topic.SiteTopics;
import burnerbridge.site.Site;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import org.junit.jupiter.api.Test;

class AppointmentsTest {
    private final Appointments appointments = new Appointments();
    private final List<Topic> topics = topics(20);

    @Test
    void aTopicComesAtItsAppointmentAndOnlyOnce() {
        appointments.make(topics.get(0), 100);

        assertThat(appointments.poll(99)).isNull();
        assertThat(appointments.poll(100)).isSameAs(topics.get(0));
        assertThat(appointments.poll(1_000)).isNull();
    }

    @Test
    void anAppointmentPutOffManyTimesTakesNoMoreRoomThanOne() {
        for (int i = 0; i < 1_000; i++) {
            appointments.make(topics.get(0), 100 + i);
        }

        assertThat(appointments.size()).isEqualTo(1);
        assertThat(appointments.poll(1_098)).isNull();
        assertThat(appointments.poll(1_099)).isSameAs(topics.get(0));
    }

    @Test
    void anAppointmentCanBeMadeSooner() {
        appointments.make(topics.get(0), 100);
        appointments.make(topics.get(0), 50);

        assertThat(appointments.soonest(0)).isEqualTo(50);
        assertThat(appointments.poll(50)).isSameAs(topics.get(0));
        assertThat(appointments.poll(200)).isNull();
    }

    @Test
    void theyAgreeWithAPlainListWhateverIsDone() {
        long seed = Seed.value();
        Random random = new Random(seed);
        // Across the point at which ticks overflow.
        long now = Long.MAX_VALUE - 2_000;
        Map<Topic, Long> plain = new HashMap<>();
        for (int i = 0; i < 5_000; i++) {
            Topic topic = topics.get(random.nextInt(topics.size()));
            long ticks = now + random.nextInt(50);
            appointments.make(topic, ticks);
            plain.put(topic, ticks);
            now += random.nextInt(3);
            List<Topic> due = new ArrayList<>();
            for (Topic t = appointments.poll(now); t != null; t = appointments.poll(now)) {
                due.add(t);
            }
            List<Topic> expected = new ArrayList<>();
            for (Topic t : topics) {
                Long at = plain.get(t);
                if (at != null && at - now <= 0) {
                    expected.add(t);
                    plain.remove(t);
                }
            }
            assertThat(due).as("seed " + seed).containsExactlyInAnyOrderElementsOf(expected);
        }
    }

    private static List<Topic> topics(int count) {
        Site site = TestPlant.siteOf(count);
        SiteTopics tellers = new SiteTopics(
                TestPlant.settings("mqtt://one"), site, TestPlant.table(site), "s", new HandClock().now());
        return tellers.points().values().stream().map(Topic::new).toList();
    }
}
