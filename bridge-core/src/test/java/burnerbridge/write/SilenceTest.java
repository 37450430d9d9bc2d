package burnerbridge.write;

import static burnerbridge.write.GateRig.ENABLE;
import static burnerbridge.write.GateRig.LOAD;
import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.model.HandClock;
import burnerbridge.site.permit.Silence;
import burnerbridge.write.ask.Decision;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;

/** What happens when nobody asks any more. */
class SilenceTest {
    private final GateRig rig = GateRig.ready();

    private GateRig asked(GateRig of) {
        of.ask(LOAD, "40");
        of.work();
        of.events.clear();
        return of;
    }

    @Test
    void aLeaseThatEndsIsToldWithWhoHeldIt() {
        asked(rig).forward(GateRig.LEASE.plusSeconds(1));
        assertThat(rig.events)
                .extracting(WriteEvent::kind)
                .containsExactly(WriteEvent.Kind.LEASE_ENDED, WriteEvent.Kind.SILENCE, WriteEvent.Kind.WRITTEN);
        assertThat(rig.events.get(0).sentence())
                .isEqualTo("bacnet 192.0.2.7:47808 has not asked again for 900 s: slot 8 is given up");
        assertThat(rig.events.get(1).sentence()).isEqualTo("nobody asks any more: 20 is written");
        assertThat(rig.events.get(2).sentence()).isEqualTo("bridge silence wrote 20.0");
    }

    @Test
    void ofTwoLeasesTheOneBehindEndsWithoutSilence() {
        asked(rig).forward(GateRig.INTERVAL);
        rig.ask(LOAD, "41", 12);
        rig.forward(GateRig.LEASE.minus(GateRig.INTERVAL).minusSeconds(5));
        rig.ask(LOAD, "40");
        rig.forward(GateRig.INTERVAL.plusSeconds(10));
        assertThat(rig.kinds()).containsExactly(WriteEvent.Kind.LEASE_ENDED);
        assertThat(rig.register(1, 44)).isEqualTo(400);
    }

    /** 1, 2, 4, 8, 16 and 32 s after the one before has failed, and from then on 60 s; looking three times takes a second. */
    @Test
    void thePausesBetweenTriesGrowToAMinute() {
        asked(rig);
        List<Long> times = new ArrayList<>();
        rig.unit.beforeWrite = () -> times.add(rig.clock.ticks());
        rig.unit.manner = RecordingUnit.Manner.ACCEPTS_AND_IGNORES;
        rig.giveUp(LOAD, 8);
        rig.forward(Duration.ofMinutes(5));
        long[] pauses = {1, 2, 4, 8, 16, 32, 60, 60};
        assertThat(times).hasSizeGreaterThan(pauses.length);
        for (int i = 0; i < pauses.length; i++) {
            assertThat(Duration.ofNanos(times.get(i + 1) - times.get(i)))
                    .as("pause %d", i)
                    .isBetween(Duration.ofSeconds(pauses[i] + 1), Duration.ofMillis(1000 * pauses[i] + 1800));
        }
        assertThat(rig.kinds()).containsExactly(WriteEvent.Kind.SILENCE, WriteEvent.Kind.FAILED);
        assertThat(rig.events.get(1).sentence())
                .startsWith("its value for silence is not there yet, and is tried again: the controller accepted it,"
                        + " and its registers hold 40.0 instead of 20");
    }

    @Test
    void whatCannotBeWrittenWhileTheControllerIsAwayIsWhenItIsBack() {
        asked(rig);
        rig.link("boiler-1", false);
        rig.giveUp(LOAD, 8);
        rig.forward(Duration.ofMinutes(2));
        assertThat(rig.register(1, 44)).isEqualTo(400);
        assertThat(rig.gate.isQuiet()).isFalse();
        rig.link("boiler-1", true);
        rig.forward(Duration.ofMinutes(2));
        assertThat(rig.register(1, 44)).isEqualTo(200);
        assertThat(rig.gate.isQuiet()).isTrue();
    }

    @Test
    void whoAsksAgainEndsTheSilenceThatIsNotThereYet() {
        asked(rig).forward(GateRig.INTERVAL);
        rig.link("boiler-1", false);
        rig.giveUp(LOAD, 8);
        rig.work();
        assertThat(rig.gate.statuses().get(0).silenceOwed()).isTrue();
        rig.link("boiler-1", true);
        assertThat(rig.ask(LOAD, "45")).isEqualTo(new Decision.Admitted(Decision.Standing.TO_BE_WRITTEN));
        assertThat(rig.gate.statuses().get(0).silenceOwed()).isFalse();
        rig.forward(Duration.ofMinutes(5));
        assertThat(rig.register(1, 44)).isEqualTo(450);
        assertThat(rig.unit.frames).hasSize(2);
    }

    @Test
    void whereTheControllerLetsGoByItselfNothingIsWritten() {
        GateRig releasing = new GateRig(
                new Kept(),
                GateRig.site(
                        List.of(GateRig.load(LOAD, new Silence.Action.Release())), Optional.of(Duration.ofSeconds(30))),
                true);
        releasing.forward(GateRig.INTERVAL);
        releasing.ask(LOAD, "40");
        releasing.work();
        releasing.forward(Duration.ofSeconds(1));
        assertThat(releasing.keeping.isStanding(LOAD)).isTrue();
        releasing.giveUp(LOAD, 8);
        releasing.forward(Duration.ofMinutes(5));
        assertThat(releasing.unit.frames).hasSize(1);
        assertThat(releasing.kinds()).containsExactly(WriteEvent.Kind.WRITTEN, WriteEvent.Kind.SILENCE);
        assertThat(releasing.events.get(1).sentence())
                .isEqualTo("nobody asks any more: nothing is written, and the controller lets the demand go by itself");
        assertThat(releasing.keeping.isStanding(LOAD)).isFalse();
    }

    @Test
    void aDemandOfBeforeTheStartIsSilentWhenItsLeaseIsOverToTheTick() {
        asked(rig);
        long start = new HandClock().ticks();
        GateRig restarted = rig.restarted(true);
        restarted.gate.step(start + GateRig.LEASE.toNanos() - 1);
        assertThat(restarted.events).isEmpty();
        restarted.gate.step(start + GateRig.LEASE.toNanos());
        assertThat(restarted.kinds()).containsExactly(WriteEvent.Kind.SILENCE);
        restarted.gate.step(start + GateRig.LEASE.toNanos() + 1);
        assertThat(restarted.kinds()).containsExactly(WriteEvent.Kind.SILENCE);
    }

    @Test
    void whoAsksAfterTheStartEndsWhatStoodBefore() {
        asked(rig);
        GateRig restarted = rig.restarted(true);
        restarted.forward(GateRig.INTERVAL);
        restarted.ask(LOAD, "45");
        restarted.forward(GateRig.LEASE.minusSeconds(30));
        assertThat(restarted.register(1, 44)).isEqualTo(450);
        assertThat(restarted.unit.frames).hasSize(2);
    }

    /** The end of a silence waits for the disk, and by then somebody may have asked again. */
    @Test
    void aNewDemandIsNotForgottenByTheEndOfTheSilenceBeforeIt() {
        asked(rig).forward(GateRig.INTERVAL);
        rig.giveUp(LOAD, 8);
        rig.work();
        assertThat(rig.register(1, 44)).isEqualTo(200);
        rig.clock.forward(GateRig.INTERVAL);
        rig.ask(LOAD, "25");
        rig.work();
        rig.gate.step(rig.clock.ticks());
        assertThat(rig.keeping.isStanding(LOAD)).isTrue();
        GateRig restarted = rig.restarted(true);
        restarted.forward(GateRig.LEASE.plusSeconds(1));
        assertThat(restarted.register(1, 44)).isEqualTo(200);
    }

    @Test
    void aSilenceThatIsThereIsForgotten() {
        asked(rig).forward(GateRig.INTERVAL);
        assertThat(rig.keeping.isStanding(LOAD)).isTrue();
        rig.giveUp(LOAD, 8);
        rig.forward(Duration.ofSeconds(1));
        assertThat(rig.keeping.isStanding(LOAD)).isFalse();
    }

    @Test
    void aGateThatIsClosedTwiceTakesBackOnce() {
        asked(rig);
        rig.ask(ENABLE, "1");
        rig.work();
        rig.unit.frames.clear();
        rig.gate.close("the bridge ends");
        rig.gate.close("the bridge ends");
        rig.forward(Duration.ofMinutes(2));
        assertThat(rig.unit.frames).hasSize(2);
    }
}
