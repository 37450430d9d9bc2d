package burnerbridge.daemon;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.config.SiteFolder;
import burnerbridge.health.HealthReport;
import burnerbridge.health.Place;
import burnerbridge.health.Trouble;
import burnerbridge.health.Trouble.Weight;
import burnerbridge.model.HandClock;
import burnerbridge.site.Site;
import java.nio.file.Path;
import java.time.Instant;
import java.util.concurrent.CountDownLatch;
import org.junit.jupiter.api.Test;

class VitalsTest {
    private static final Site SITE =
            SiteFolder.load(Path.of("../config/examples/quillmere")).site().orElseThrow();

    private final HandClock clock = new HandClock();
    private final Vitals vitals = new Vitals(SITE, clock);

    private HealthReport report() {
        return vitals.report();
    }

    @Test
    void untilAllPartsWereStartedItIsAliveAndNotReady() {
        assertThat(report().alive()).isTrue();
        assertThat(report().ready()).isFalse();
        vitals.allStarted();
        assertThat(report().ready()).isTrue();
        assertThat(report().degraded()).isFalse();
    }

    @Test
    void whatAPartTellsDegradesAsMuchAsItSays() {
        vitals.allStarted();
        vitals.watch(troubles ->
                troubles.accept(new Trouble(Place.CABLE, "line annex", "is away", "", null, Weight.DEGRADED)));
        assertThat(report().degraded()).isTrue();
        assertThat(report().ready()).isTrue();

        vitals.watch(
                troubles -> troubles.accept(new Trouble(Place.BROKER, "mqtt", "is away", "", null, Weight.NOT_READY)));
        assertThat(report().ready()).isFalse();
        assertThat(report().alive()).as("a restart would help nobody").isTrue();
    }

    @Test
    void aDutyThatStandsStillIsNotAlive() throws InterruptedException {
        vitals.allStarted();
        CountDownLatch stepped = new CountDownLatch(1);
        CountDownLatch goOn = new CountDownLatch(1);
        DutyThread duty = new DutyThread(
                work -> new Thread(work, "line annex"),
                now -> {
                    stepped.countDown();
                    await(goOn);
                    return now;
                },
                clock);
        vitals.watch(duty);
        duty.start();
        stepped.await();
        try {
            assertThat(report().alive()).isTrue();
            clock.forward(DutyThread.LONGEST_STEP.plusSeconds(1));

            assertThat(report().alive()).isFalse();
            assertThat(report().stalled()).containsExactly("line annex");
            assertThat(report().troubles())
                    .anySatisfy(
                            trouble -> assertThat(trouble.sentence()).startsWith("line annex: has not moved for 12"));
        } finally {
            goOn.countDown();
            duty.close();
        }
        assertThat(report().alive()).as("one that was ended need not move").isTrue();
    }

    private static void await(CountDownLatch latch) {
        try {
            latch.await();
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }

    @Test
    void aClockThatCannotBeRightIsTold() {
        vitals.allStarted();
        clock.setWall(Instant.parse("1970-01-01T00:03:00Z"));
        clock.believe(false);

        assertThat(report().clockBelieved()).isFalse();
        assertThat(report().troubles()).hasSize(1);
        assertThat(report().troubles().get(0).sentence())
                .startsWith("clock: it says 1970-01-01T00:03:00Z, which cannot be right");
    }
}
