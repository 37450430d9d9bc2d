package burnerbridge.mqtt;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.mqtt.broker.Broker.Message;
import burnerbridge.site.States;
import burnerbridge.site.unit.Unit;
import burnerbridge.table.StaleSweep;
import java.time.Duration;
import java.util.List;
import org.junit.jupiter.api.Test;

class SenderHeartbeatTest {
    private static final Duration SECOND = Duration.ofSeconds(1);
    private static final Duration HOUR = Duration.ofHours(1);

    @Test
    void aSteadyMeasurementIsRepeatedWithinHalfOfItsValidity() {
        SenderRig rig = SenderRig.connected(TestPlant.siteOf(1));
        for (int i = 0; i < 30; i++) {
            rig.publish(0, TestPlant.real(42, rig.clock.now()));
            rig.pass(Duration.ofSeconds(2));
        }

        List<Message> sent = rig.sentOf(0);
        // Sixty seconds, a validity of 9 or 10 s, half of it each time.
        assertThat(sent).hasSizeBetween(12, 15);
        assertThat(sent).allSatisfy(m -> assertThat(m.expirySeconds()).isBetween(8L, 10L));
    }

    @Test
    void aReadingThatWasNotRenewedIsNotRepeatedUntilTheTableSaysThatItIsStale() {
        SenderRig rig = SenderRig.connected(TestPlant.siteOf(1));
        StaleSweep sweep = new StaleSweep(rig.table);
        rig.publish(0, TestPlant.real(42, rig.clock.now()));

        int steps = rig.pass(Duration.ofMillis(9_990));
        assertThat(rig.sentOf(0)).hasSize(1);
        assertThat(steps).isLessThan(40);

        rig.pass(Duration.ofMillis(20));
        sweep.step(rig.clock.ticks());
        rig.step();
        assertThat(rig.sentOf(0)).hasSize(2);
        assertThat(rig.sentOf(0).get(1).payload())
                .contains("\"quality\":\"stale\"")
                .contains("\"validFor\":60");
    }

    @Test
    void aReadingRenewedLateIsRepeatedBeforeItsMessageRunsOut() {
        SenderRig rig = SenderRig.connected(TestPlant.siteOf(1));
        rig.publish(0, TestPlant.real(42, rig.clock.now()));
        rig.pass(Duration.ofSeconds(7));
        rig.publish(0, TestPlant.real(42, rig.clock.now()));

        rig.pass(Duration.ofMillis(2_900));

        assertThat(rig.sentOf(0)).hasSize(2);
    }

    @Test
    void aSettingReadOnceAnHourIsRepeatedAboutThatOften() {
        Duration staleAfter = HOUR.multipliedBy(3);
        SenderRig rig = SenderRig.connected(
                TestPlant.site(1, TestPlant.point("setpoint", Unit.of("%"), staleAfter, "0", States.NONE)));
        for (int i = 0; i < 24; i++) {
            rig.publish(0, TestPlant.real(42, rig.clock.now()));
            rig.pass(HOUR);
        }

        List<Message> sent = rig.sentOf(0);
        assertThat(sent).hasSizeBetween(16, 24);
        assertThat(sent).allSatisfy(m -> assertThat(m.expirySeconds()).isBetween(7_000L, 10_800L));
    }

    @Test
    void aReadingOlderThanItsAllowanceIsNotSentAsGood() {
        SenderRig rig = SenderRig.connected(TestPlant.siteOf(1));
        rig.publish(0, TestPlant.real(42, rig.clock.now()));
        rig.settle();
        rig.broker.last().tellEnd(0, "gone");
        rig.step();
        rig.clock.forward(Duration.ofSeconds(11));
        rig.step();
        rig.broker.last().answersAtOnce = true;
        rig.broker.last().open(100);

        int steps = rig.pass(SECOND.multipliedBy(5));
        assertThat(rig.sentOf(0)).isEmpty();
        assertThat(steps).isLessThan(50);

        rig.publish(0, TestPlant.real(42, rig.clock.now()));
        rig.pass(Duration.ofMillis(501));
        assertThat(rig.sentOf(0)).hasSize(1);
    }

    @Test
    void aStaleReadingIsRepeatedAsLongAsTheBridgeLives() {
        SenderRig rig = SenderRig.connected(TestPlant.siteOf(1));

        rig.pass(Duration.ofSeconds(301));

        assertThat(rig.sentOf(0)).hasSize(10).allSatisfy(m -> {
            assertThat(m.payload()).contains("\"reason\":\"not-read-yet\"");
            assertThat(m.expirySeconds()).isEqualTo(60);
        });
    }

    @Test
    void aStepOfTheWallClockChangesNothingButTheTimesShown() {
        SenderRig rig = SenderRig.connected(TestPlant.siteOf(1));
        rig.publish(0, TestPlant.real(42, rig.clock.now()));
        rig.clock.stepWall(Duration.ofDays(-1));
        rig.settle();
        rig.pass(SECOND);

        assertThat(rig.sentOf(0)).singleElement().satisfies(m -> {
            assertThat(m.expirySeconds()).isEqualTo(10);
            assertThat(m.payload()).contains("\"sentAt\":\"2026-11-24T08:00:01.250Z\"");
        });
    }
}
