package burnerbridge.write;

import static burnerbridge.write.GateRig.LOAD;
import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.site.PointId;
import burnerbridge.table.ControllerLink;
import burnerbridge.write.ask.Ask;
import burnerbridge.write.ask.Decision;
import burnerbridge.write.ask.Fate;
import burnerbridge.write.ask.Question;
import burnerbridge.write.ask.Wanted;
import java.io.IOException;
import java.math.BigDecimal;
import java.nio.charset.StandardCharsets;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;

/** What askers are told that wait for what becomes of their asks, and what those are told who mirror the slots. */
class FateTest {
    private final GateRig rig = GateRig.ready();
    private final List<Fate> fates = new ArrayList<>();
    private final List<PointId> changes = new ArrayList<>();

    private Decision ask(String value, int slot) {
        return ask(new Wanted.Number(new BigDecimal(value)), slot);
    }

    private Decision ask(Wanted wanted, int slot) {
        return rig.gate.ask(new Ask(LOAD, wanted, slot, GateRig.OPTIMISER), fates::add);
    }

    private PermitStatus status() {
        return rig.gate.status(LOAD).orElseThrow();
    }

    @Test
    void whatWasWrittenIsToldAfterItWasReadBackAndNotBefore() {
        ask("35", 12);
        assertThat(fates).isEmpty();
        rig.work();
        assertThat(fates).containsExactly(new Fate.Written(new BigDecimal("35.0")));
    }

    @Test
    void whoAsksForWhatIsOnItsWayIsToldWhatBecomesOfThat() {
        ask("35", 12);
        assertThat(ask("35", 12)).isEqualTo(new Decision.Admitted(Decision.Standing.RENEWED));
        assertThat(fates).isEmpty();
        rig.work();
        assertThat(fates).hasSize(2).allMatch(fate -> fate instanceof Fate.Written);
        ask("35", 12);
        assertThat(fates).hasSize(3).allMatch(fate -> fate instanceof Fate.Written);
        assertThat(rig.unit.frames).hasSize(1);
    }

    @Test
    void whoIsBehindIsToldWhoWins() {
        rig.ask(LOAD, "35", 8);
        ask("30", 12);
        assertThat(fates).containsExactly(new Fate.Behind(8, GateRig.STATION));
    }

    @Test
    void whoIsOvertakenBeforeItsTurnIsTold() {
        ask("35", 12);
        rig.ask(LOAD, "30", 8);
        assertThat(fates).containsExactly(new Fate.Overtaken());
        rig.work();
        assertThat(fates).hasSize(1);
        assertThat(rig.register(1, 44)).isEqualTo(300);
    }

    @Test
    void whoGivesUpIsToldSo() {
        ask("35", 12);
        rig.work();
        ask(new Wanted.Nothing(), 12);
        assertThat(fates).endsWith(new Fate.GivenUp()).hasSize(2);
    }

    @Test
    void whatAControllerDoesNotTakeIsNoSuccess() {
        rig.unit.manner = RecordingUnit.Manner.ACCEPTS_AND_IGNORES;
        ask("35", 12);
        rig.work();
        rig.forward(Duration.ofSeconds(3));
        assertThat(fates)
                .singleElement()
                .isInstanceOfSatisfying(
                        Fate.Failed.class, failed -> assertThat(failed.code()).isEqualTo("not-taken"));
        assertThat(status().failed()).contains("instead of 35");
    }

    @Test
    void aNoAtTheTurnIsToldWithItsQuestionAndThatItIsTriedAgain() {
        ask("35", 12);
        rig.table.publish(
                rig.site.controllers().get(0),
                ControllerLink.down(ControllerLink.Cause.LINE_DOWN, "the cable is out", rig.clock.now()));
        rig.work();
        assertThat(fates).singleElement().isInstanceOfSatisfying(Fate.Withheld.class, withheld -> {
            assertThat(withheld.question()).isEqualTo(Question.ANSWERING);
            assertThat(withheld.kept()).isTrue();
        });
        assertThat(status().held()).contains("the cable is out");
    }

    @Test
    void aRefusedAskHasNoFate() {
        assertThat(ask("95", 12)).isInstanceOf(Decision.Refused.class);
        rig.forward(Duration.ofMinutes(5));
        assertThat(fates).isEmpty();
    }

    @Test
    void watchersAreToldOfOtherSlotsButNotOfTimeThatPasses() {
        rig.gate.watch(changes::add);
        ask("35", 12);
        assertThat(changes).containsOnly(LOAD);
        rig.work();
        rig.forward(Duration.ofSeconds(1));
        changes.clear();
        rig.forward(Duration.ofSeconds(30));
        ask("35", 12);
        assertThat(changes).isEmpty();
        assertThat(status().winner().orElseThrow().left()).hasValue(GateRig.LEASE.toNanos());
        rig.forward(GateRig.LEASE);
        assertThat(changes).contains(LOAD);
        assertThat(status().slots()).isEmpty();
    }

    @Test
    void theStatusSaysHowLongUntilTheNextWriteAndWhatIsLeftOfTheBudget() {
        ask("35", 12);
        rig.work();
        // Counted from when it left; the unit takes 10 ms for its reply, and as much for the read-back.
        assertThat(status().untilNextWrite())
                .isEqualTo(GateRig.INTERVAL.minusMillis(20).toNanos());
        assertThat(status().spent()).isEqualTo(1);
        assertThat(status().budget()).hasValue(GateRig.LIFETIME);
        assertThat(status().readBack()).contains(new BigDecimal("35.0"));
    }

    @Test
    void refusalsThatAreAlikeAreToldOnceAndThenCounted() {
        for (int i = 0; i < 50; i++) {
            ask("95", 12);
        }
        assertThat(rig.kinds()).containsExactly(WriteEvent.Kind.REFUSED);
        rig.forward(Duration.ofSeconds(61));
        assertThat(rig.kinds()).containsExactly(WriteEvent.Kind.REFUSED, WriteEvent.Kind.REFUSED);
        assertThat(rig.events.get(1).sentence())
                .startsWith("49 more times, at last: ")
                .contains("(was 95)");
        rig.forward(Duration.ofSeconds(61));
        assertThat(rig.events).hasSize(2);
    }

    @Test
    void whatADoorRefusedIsToldAndRecordedAsWhatTheGateRefuses() throws IOException {
        for (int i = 0; i < 50; i++) {
            rig.gate.refused(LOAD, GateRig.OPTIMISER, "35", "doubled", "the same ask came before");
        }
        rig.gate.refused(LOAD, GateRig.OPTIMISER, "", "malformed", "an ask is one JSON object");
        assertThat(rig.events)
                .containsExactly(
                        new WriteEvent(WriteEvent.Kind.REFUSED, LOAD, "the same ask came before"),
                        new WriteEvent(WriteEvent.Kind.REFUSED, LOAD, "an ask is one JSON object"));
        rig.forward(Duration.ofSeconds(61));
        assertThat(rig.events)
                .last()
                .isEqualTo(new WriteEvent(
                        WriteEvent.Kind.REFUSED, LOAD, "49 more times, at last: the same ask came before"));
        List<String> refused = new String(rig.kept.disk.read("audit-000001.jsonl"), StandardCharsets.UTF_8)
                .lines()
                .filter(line -> line.contains("\"source\":\"mqtt plant optimiser\""))
                .toList();
        assertThat(refused)
                .anyMatch(line -> line.contains("\"kind\":\"refused\"")
                        && line.contains("\"asked\":\"35\"")
                        && line.contains("\"code\":\"doubled\",\"sentence\":\"the same ask came before\""))
                .anyMatch(line -> line.contains("\"kind\":\"refused\"") && line.contains("\"code\":\"malformed\""))
                .anyMatch(line -> line.contains("\"kind\":\"refusals\"") && line.contains("\"count\":49"));
        assertThat(rig.unit.frames).isEmpty();
    }
}
