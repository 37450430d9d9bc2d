package burnerbridge.write;

import static burnerbridge.write.GateRig.LOAD;
import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.site.PointId;
import burnerbridge.site.RegisterTable;
import burnerbridge.site.permit.Purpose;
import burnerbridge.table.ControllerLink;
import burnerbridge.write.ask.Ask;
import burnerbridge.write.ask.Decision;
import burnerbridge.write.ask.Fate;
import burnerbridge.write.ask.Question;
import burnerbridge.write.ask.Wanted;
import java.math.BigDecimal;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalLong;
import org.junit.jupiter.api.Test;

/** What happens between two asks, two tickets or two looks, where one of them changes what the other finds. */
class GateEdgesTest {
    private final GateRig rig = GateRig.ready();
    private final List<Fate> fates = new ArrayList<>();
    private final List<PointId> changes = new ArrayList<>();

    private Decision ask(String value, int slot) {
        return rig.gate.ask(
                new Ask(LOAD, new Wanted.Number(new BigDecimal(value)), slot, GateRig.OPTIMISER), fates::add);
    }

    private Decision askFor(String value, int slot, Duration holds) {
        return rig.gate.ask(new Ask(
                LOAD,
                new Wanted.Number(new BigDecimal(value)),
                slot,
                GateRig.OPTIMISER,
                OptionalLong.of(rig.clock.ticks() + holds.toNanos()),
                Optional.empty()));
    }

    private PermitStatus status() {
        return rig.gate.status(LOAD).orElseThrow();
    }

    private void link(int controller, ControllerLink link) {
        rig.table.publish(rig.site.controllers().get(controller), link);
        rig.gate.step(rig.clock.ticks());
    }

    @Test
    void whoAsksAgainForWhatWaitsIsToldWhyItWaits() {
        rig.ask(LOAD, "35", 8);
        rig.work();
        rig.forward(GateRig.INTERVAL);
        ask("30", 12);
        rig.ask(LOAD, "40", 8);
        rig.work();
        fates.clear();
        rig.giveUp(LOAD, 8);
        assertThat(status().held()).isNotEmpty();
        assertThat(ask("30", 12)).isEqualTo(new Decision.Admitted(Decision.Standing.RENEWED));
        assertThat(fates)
                .singleElement()
                .isInstanceOfSatisfying(
                        Fate.Withheld.class,
                        withheld -> assertThat(withheld.question()).isEqualTo(Question.INTERVAL));
    }

    @Test
    void whatIsRenewedBehindAnotherIsStillNotWrittenForTheFirstTimeAfterItsEnd() {
        rig.ask(LOAD, "35", 8);
        rig.work();
        rig.forward(GateRig.INTERVAL);
        askFor("30", 12, Duration.ofSeconds(60));
        rig.forward(Duration.ofSeconds(30));
        askFor("30", 12, Duration.ofSeconds(60));
        rig.forward(Duration.ofSeconds(100));
        rig.giveUp(LOAD, 8);
        assertThat(rig.kinds()).contains(WriteEvent.Kind.FAILED);
        assertThat(status().winner()).isEmpty();
    }

    @Test
    void whatStoodAlreadyWhenItWasAskedForComesUpAgainAfterItsEnd() {
        rig.ask(LOAD, "35", 8);
        rig.work();
        rig.forward(GateRig.INTERVAL);
        assertThat(askFor("35", 5, Duration.ofSeconds(60))).isEqualTo(new Decision.Admitted(Decision.Standing.RENEWED));
        rig.giveUp(LOAD, 8);
        rig.ask(LOAD, "40", 3);
        rig.work();
        rig.forward(Duration.ofSeconds(100));
        rig.giveUp(LOAD, 3);
        rig.work();
        assertThat(rig.register(1, 44)).isEqualTo(350);
        assertThat(status().winner().orElseThrow().slot()).isEqualTo(5);
    }

    @Test
    void ofEachSlotThatComesUpAndWaitsPeopleAreTold() {
        rig.ask(LOAD, "35", 8);
        rig.work();
        rig.forward(GateRig.INTERVAL);
        rig.ask(LOAD, "30", 12);
        rig.ask(LOAD, "40", 3);
        rig.work();
        rig.giveUp(LOAD, 3);
        rig.giveUp(LOAD, 8);
        assertThat(rig.events)
                .filteredOn(event -> event.kind() == WriteEvent.Kind.HELD)
                .extracting(WriteEvent::sentence)
                .satisfiesExactly(
                        first -> assertThat(first).startsWith("slot 8 "),
                        second -> assertThat(second).startsWith("slot 12 "));
    }

    @Test
    void whoGivesUpBeforeItsTurnIsToldAtOnceThatNothingWasSent() {
        ask("35", 8);
        rig.giveUp(LOAD, 8);
        assertThat(fates).containsExactly(new Fate.Overtaken());
        rig.work();
        assertThat(rig.unit.frames).isEmpty();
    }

    @Test
    void anotherWriterBeforeItsTurnEndsIt() {
        ask("35", 8);
        rig.unit.set(1, RegisterTable.HOLDING_REGISTER, 44, 700);
        rig.clock.forward(Duration.ofSeconds(1));
        rig.poll();
        assertThat(fates).containsExactly(new Fate.Overtaken());
        rig.work();
        assertThat(rig.unit.frames).isEmpty();
    }

    @Test
    void watchersAreToldWithoutAnAskAndWithoutALook() {
        rig.gate.watch(changes::add);
        rig.ask(LOAD, "35");
        changes.clear();
        rig.work();
        assertThat(changes).as("what was read back").contains(LOAD);
        changes.clear();
        rig.clock.forward(Duration.ofSeconds(1));
        rig.unit.set(1, RegisterTable.HOLDING_REGISTER, 44, 700);
        rig.poll();
        assertThat(changes).as("that it sleeps").contains(LOAD);
        changes.clear();
        rig.gate.open(new Authority(
                Optional.of("a hash"), "", Map.of(rig.site.controllers().get(0).name(), "S1")));
        assertThat(changes).as("that it is awake").contains(LOAD);
    }

    @Test
    void watchersAreToldWhenTheGateCloses() {
        rig.gate.watch(changes::add);
        rig.ask(LOAD, "35");
        rig.work();
        changes.clear();
        rig.gate.close("the bridge ends");
        assertThat(changes).contains(LOAD);
        assertThat(status().slots()).isEmpty();
    }

    @Test
    void whatDidNotLeaveIsTriedAgainAfterASecondAndNothingStandsOfIt() {
        rig.unit.manner = RecordingUnit.Manner.NOT_SENT;
        ask("35", 8);
        rig.work();
        rig.gate.step(rig.clock.ticks());
        assertThat(rig.keeping.isStanding(LOAD)).isFalse();
        rig.forward(Duration.ofMillis(800));
        assertThat(status().spent()).as("attempts").isEqualTo(1);
        rig.poll();
        rig.forward(Duration.ofMillis(600));
        assertThat(status().spent()).as("attempts").isEqualTo(2);
        rig.unit.manner = RecordingUnit.Manner.WELL;
        rig.poll();
        rig.forward(Duration.ofSeconds(10));
        assertThat(rig.register(1, 44)).isEqualTo(350);
    }

    @Test
    void aSilenceThatIsNotTakenIsTriedAgainAndAgainWithPauses() {
        rig.ask(LOAD, "35");
        rig.work();
        rig.unit.manner = RecordingUnit.Manner.REFUSES;
        rig.giveUp(LOAD, 8);
        rig.work();
        assertThat(rig.unit.frames).hasSize(2);
        rig.forward(Duration.ofMillis(800));
        assertThat(rig.unit.frames).hasSize(2);
        rig.forward(Duration.ofMillis(600));
        assertThat(rig.unit.frames).hasSize(3);
        rig.forward(Duration.ofMinutes(5));
        assertThat(rig.unit.frames).hasSizeBetween(8, 14);
        rig.unit.manner = RecordingUnit.Manner.WELL;
        rig.forward(Duration.ofMinutes(2));
        assertThat(rig.register(1, 44)).isEqualTo(200);
        assertThat(status().silenceOwed()).isFalse();
    }

    @Test
    void thatAnotherControllerWasAwayForgetsNothingOfThisOne() {
        rig.ask(LOAD, "35");
        rig.work();
        link(1, ControllerLink.down(ControllerLink.Cause.NO_REPLY, "no reply", rig.clock.now()));
        link(1, ControllerLink.up(rig.clock.now()));
        assertThat(ask("35", 8)).isEqualTo(new Decision.Admitted(Decision.Standing.RENEWED));
        rig.work();
        assertThat(rig.unit.frames).hasSize(1);
    }

    @Test
    void whatWasWrittenThoughNobodyKnewIsNoOtherWritersWhenItIsReadLater() {
        rig.unit.manner = RecordingUnit.Manner.APPLIES_AND_IS_SILENT;
        rig.unit.answers = false;
        ask("35", 8);
        // Who it is has to be read first.
        rig.unit.answers = true;
        rig.unit.beforeWrite = () -> rig.unit.answers = false;
        rig.forward(Duration.ofSeconds(3));
        assertThat(rig.kinds()).contains(WriteEvent.Kind.FAILED);
        rig.unit.beforeWrite = () -> {};
        rig.unit.answers = true;
        rig.clock.forward(Duration.ofSeconds(1));
        rig.poll();
        assertThat(rig.kinds()).doesNotContain(WriteEvent.Kind.ASLEEP);
        assertThat(status().asleep()).isEmpty();
    }

    @Test
    void aHeartbeatTogglesOrCountsUpToItsLimitAndBeginsAgain() {
        assertThat(Heartbeats.next(new Purpose.Pattern.Toggle(), 0)).isEqualTo(1);
        assertThat(Heartbeats.next(new Purpose.Pattern.Toggle(), 1)).isZero();
        assertThat(Heartbeats.next(new Purpose.Pattern.Count(3), 2)).isEqualTo(3);
        assertThat(Heartbeats.next(new Purpose.Pattern.Count(3), 3)).isZero();
    }
}
