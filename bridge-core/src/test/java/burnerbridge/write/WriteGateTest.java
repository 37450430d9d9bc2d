package burnerbridge.write;

import static burnerbridge.write.GateRig.ENABLE;
import static burnerbridge.write.GateRig.LIMIT;
import static burnerbridge.write.GateRig.LOAD;
import static burnerbridge.write.GateRig.MODE;
import static burnerbridge.write.GateRig.OTHER_LOAD;
import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.site.RegisterTable;
import burnerbridge.table.ControllerLink;
import burnerbridge.write.ask.Ask;
import burnerbridge.write.ask.Decision;
import burnerbridge.write.ask.Question;
import burnerbridge.write.ask.RequestKey;
import burnerbridge.write.ask.Source;
import burnerbridge.write.ask.Wanted;
import burnerbridge.write.audit.AuditKind;
import burnerbridge.write.audit.AuditVerifier;
import java.io.IOException;
import java.math.BigDecimal;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;
import org.junit.jupiter.api.Test;

class WriteGateTest {
    private static final Decision TO_BE_WRITTEN = new Decision.Admitted(Decision.Standing.TO_BE_WRITTEN);
    private static final Decision RENEWED = new Decision.Admitted(Decision.Standing.RENEWED);
    private static final Decision BEHIND = new Decision.Admitted(Decision.Standing.BEHIND);

    private final GateRig rig = GateRig.ready();

    private static Question refusal(Decision decision) {
        assertThat(decision).isInstanceOf(Decision.Refused.class);
        return ((Decision.Refused) decision).question();
    }

    private Question refusal(String value) {
        return refusal(rig.ask(LOAD, value));
    }

    @Test
    void whatIsAskedForIsWrittenOnceAndReadBack() {
        assertThat(rig.ask(LOAD, "35.5")).isEqualTo(TO_BE_WRITTEN);
        rig.work();
        assertThat(rig.register(1, 44)).isEqualTo(355);
        assertThat(rig.unit.frames).hasSize(1);
        assertThat(rig.kinds()).containsExactly(WriteEvent.Kind.WRITTEN);
    }

    @Test
    void whoItIsIsReadBeforeTheFirstWriteAndAgainAfterAnotherConnection() {
        rig.ask(LOAD, "35");
        rig.work();
        assertThat(rig.unit.reads.get(0).first()).isEqualTo(100);
        rig.unit.reads.clear();
        rig.ask(ENABLE, "1");
        rig.work();
        assertThat(rig.unit.reads).noneMatch(read -> read.first() == 100);
        rig.unit.connections++;
        rig.unit.reads.clear();
        rig.ask(MODE, "1");
        rig.work();
        assertThat(rig.unit.reads.get(0).first()).isEqualTo(100);
    }

    @Test
    void aConnectionThatHasEndedIsOpenedAgainByAskingWhoIsThereBeforeAnythingIsSpent() {
        rig.ask(LOAD, "35");
        rig.work();
        rig.unit.connected = false;
        rig.forward(GateRig.INTERVAL);
        rig.ask(LOAD, "36");
        rig.work();
        assertThat(rig.register(1, 44)).isEqualTo(360);
        assertThat(rig.gate.status(LOAD).orElseThrow().spent()).isEqualTo(2);
        assertThat(rig.kinds()).containsOnly(WriteEvent.Kind.WRITTEN);
    }

    @Test
    void anUnknownPointHasNoGate() {
        assertThat(refusal(rig.ask(GateRig.id("boiler-9", "load-demand"), "30")))
                .isEqualTo(Question.KNOWN_POINT);
    }

    @Test
    void aPointWithoutPermitIsRefused() {
        assertThat(refusal(rig.ask(LIMIT, "30"))).isEqualTo(Question.PERMIT);
        assertThat(refusal(rig.ask(LOAD, "30", Ask.KEPT_SLOT))).isEqualTo(Question.PERMIT);
    }

    @Test
    void withoutApprovalNothingIsWritten() {
        GateRig unapproved = new GateRig(new Kept(), GateRig.site(GateRig.usualPermits()), false);
        unapproved.forward(GateRig.INTERVAL);
        assertThat(refusal(unapproved.ask(LOAD, "30"))).isEqualTo(Question.APPROVED);
        unapproved.forward(Duration.ofHours(1));
        assertThat(unapproved.unit.frames).isEmpty();
    }

    @Test
    void whoIsNotAmongTheAskersIsRefused() {
        Source stranger = new Source.Bacnet(0xC0000301, 47808, 0);
        assertThat(refusal(rig.gate.ask(new Ask(LOAD, new Wanted.Number(new BigDecimal("30")), 8, stranger))))
                .isEqualTo(Question.SOURCE);
    }

    @Test
    void anAskThatComesTooLateIsRefused() {
        Ask late = new Ask(
                LOAD,
                new Wanted.Number(new BigDecimal("30")),
                12,
                GateRig.OPTIMISER,
                OptionalLong.of(rig.clock.ticks() - 1),
                Optional.empty());
        assertThat(refusal(rig.gate.ask(late))).isEqualTo(Question.FRESH);
    }

    @Test
    void theLastWriteOfABudgetIsNotRefusedByItsOwnDebit() {
        Kept kept = new Kept();
        kept.spend(LOAD, GateRig.LIFETIME - Interrogation.reserve(GateRig.LIFETIME) - 1);
        GateRig worn = new GateRig(kept, GateRig.site(GateRig.usualPermits()), true);
        worn.forward(GateRig.INTERVAL);
        assertThat(worn.ask(LOAD, "35")).isEqualTo(TO_BE_WRITTEN);
        worn.work();
        assertThat(worn.register(1, 44)).isEqualTo(350);
        worn.forward(GateRig.INTERVAL);
        assertThat(refusal(worn.ask(LOAD, "36"))).isEqualTo(Question.BUDGET);
        assertThat(worn.unit.frames).hasSize(1);
    }

    @Test
    void onlyFiniteNumbersAreValues() {
        for (double wrong : new double[] {Double.NaN, Double.POSITIVE_INFINITY, Double.NEGATIVE_INFINITY}) {
            assertThat(refusal(rig.gate.ask(new Ask(LOAD, Wanted.Number.of(wrong), 8, GateRig.STATION))))
                    .isEqualTo(Question.TYPE);
        }
    }

    @Test
    void beyondTheRangeNothingIsWrittenHoweverLargeTheNumber() {
        assertThat(refusal("19.9")).isEqualTo(Question.RANGE);
        assertThat(refusal("90.1")).isEqualTo(Question.RANGE);
        assertThat(refusal("-30")).isEqualTo(Question.RANGE);
        assertThat(refusal("1e400")).isEqualTo(Question.RANGE);
        assertThat(refusal("1e2000000000")).isEqualTo(Question.RANGE);
        assertThat(refusal("1e-2000000000")).isEqualTo(Question.RANGE);
        assertThat(refusal(rig.ask(MODE, "2"))).isEqualTo(Question.RANGE);
        assertThat(refusal(rig.ask(MODE, "0.5"))).isEqualTo(Question.RANGE);
    }

    @Test
    void aStepIsMeasuredFromTheLastReadBack() {
        assertThat(refusal("40.1")).isEqualTo(Question.STEP);
        assertThat(rig.ask(LOAD, "40")).isEqualTo(TO_BE_WRITTEN);
        rig.work();
        rig.forward(GateRig.INTERVAL);
        assertThat(refusal("50.1")).isEqualTo(Question.STEP);
        assertThat(rig.ask(LOAD, "50")).isEqualTo(TO_BE_WRITTEN);
    }

    @Test
    void afterAStartAndAfterAWriteAWholeIntervalPasses() {
        GateRig fresh = new GateRig();
        assertThat(refusal(fresh.ask(LOAD, "30"))).isEqualTo(Question.INTERVAL);
        rig.ask(LOAD, "31");
        rig.work();
        assertThat(refusal("32")).isEqualTo(Question.INTERVAL);
        rig.forward(GateRig.INTERVAL);
        assertThat(rig.ask(LOAD, "32")).isEqualTo(TO_BE_WRITTEN);
    }

    @Test
    void aControllerThatIsNotThereIsNotWritten() {
        rig.table.publish(
                rig.site.controllers().get(0),
                ControllerLink.down(ControllerLink.Cause.NO_REPLY, "no reply", rig.clock.now()));
        assertThat(refusal("31")).isEqualTo(Question.ANSWERING);
    }

    @Test
    void anotherControllerBehindTheUnitIsNotWritten() {
        rig.unit.set(1, RegisterTable.HOLDING_REGISTER, 100, 0x5339);
        assertThat(rig.ask(LOAD, "31")).isEqualTo(TO_BE_WRITTEN);
        rig.work();
        assertThat(rig.unit.frames).isEmpty();
        assertThat(rig.kinds()).containsExactly(WriteEvent.Kind.HELD);
        rig.poll();
        assertThat(refusal("32")).isEqualTo(Question.IDENTITY);
    }

    @Test
    void twoThatSayThatTheyAreTheSameAreBothNotWritten() {
        rig.unit.set(2, RegisterTable.HOLDING_REGISTER, 100, 0x5331);
        rig.poll();
        assertThat(refusal("31")).isEqualTo(Question.IDENTITY);
        assertThat(refusal(rig.ask(OTHER_LOAD, "31"))).isEqualTo(Question.IDENTITY);
    }

    @Test
    void anEqualAskOnlyRenewsTheLease() {
        rig.ask(LOAD, "35");
        rig.work();
        rig.forward(GateRig.LEASE.minusSeconds(1));
        assertThat(rig.ask(LOAD, "35")).isEqualTo(RENEWED);
        rig.forward(GateRig.LEASE.minusSeconds(1));
        assertThat(rig.unit.frames).hasSize(1);
        rig.forward(Duration.ofSeconds(2));
        assertThat(rig.register(1, 44)).isEqualTo(200);
    }

    @Test
    void toGiveUpWhatHoldsNothingIsNoNews() throws IOException {
        rig.ask(LOAD, "35");
        for (int i = 0; i < 100; i++) {
            rig.giveUp(LOAD, 8);
        }
        rig.forward(Duration.ofSeconds(1));
        List<String> admitted = new ArrayList<>();
        new AuditVerifier(rig.kept.disk).verify(record -> {
            if (record.kind().equals(AuditKind.ADMITTED.word())) {
                admitted.add(record.details().getOrDefault("code", ""));
            }
        });
        assertThat(admitted).containsExactly("to-be-written", "given-up");
    }

    @Test
    void theLowestSlotWinsAndWhatComesUpPassesTheWholeGate() {
        rig.ask(LOAD, "35", 8);
        rig.work();
        rig.forward(GateRig.INTERVAL);
        assertThat(rig.ask(LOAD, "38", 12)).isEqualTo(BEHIND);
        rig.work();
        assertThat(rig.register(1, 44)).isEqualTo(350);
        rig.giveUp(LOAD, 8);
        rig.work();
        assertThat(rig.register(1, 44)).isEqualTo(380);
    }

    @Test
    void whatComesUpAndMayNotIsHeldUntilItMay() {
        rig.oneBehindTheWinner();
        rig.giveUp(LOAD, 8);
        rig.forward(GateRig.INTERVAL.minusSeconds(5));
        assertThat(rig.register(1, 44)).isEqualTo(340);
        assertThat(rig.gate.statuses().get(0).held()).contains("60 s");
        rig.forward(Duration.ofSeconds(6));
        assertThat(rig.register(1, 44)).isEqualTo(380);
        assertThat(rig.gate.statuses().get(0).held()).isEmpty();
    }

    @Test
    void whatWasWrittenInTimeComesUpAgainAsLongAsItsLeaseLives() {
        Ask brief = new Ask(
                LOAD,
                new Wanted.Number(new BigDecimal("35")),
                12,
                GateRig.OPTIMISER,
                OptionalLong.of(rig.clock.ticks() + Duration.ofSeconds(30).toNanos()),
                Optional.empty());
        assertThat(rig.gate.ask(brief)).isEqualTo(TO_BE_WRITTEN);
        rig.forward(GateRig.INTERVAL.plusSeconds(1));
        assertThat(rig.ask(LOAD, "40", 8)).isEqualTo(TO_BE_WRITTEN);
        rig.forward(GateRig.INTERVAL.plusSeconds(1));
        rig.giveUp(LOAD, 8);
        rig.forward(Duration.ofSeconds(1));
        assertThat(rig.register(1, 44)).isEqualTo(350);
        assertThat(rig.kinds()).containsOnly(WriteEvent.Kind.WRITTEN);
    }

    @Test
    void whatWasNeverWrittenInTimeIsNotWrittenLate() {
        rig.ask(LOAD, "40", 8);
        rig.forward(GateRig.INTERVAL.plusSeconds(1));
        Ask brief = new Ask(
                LOAD,
                new Wanted.Number(new BigDecimal("35")),
                12,
                GateRig.OPTIMISER,
                OptionalLong.of(rig.clock.ticks() + Duration.ofSeconds(30).toNanos()),
                Optional.empty());
        assertThat(rig.gate.ask(brief)).isEqualTo(BEHIND);
        rig.forward(Duration.ofMinutes(1));
        rig.giveUp(LOAD, 8);
        rig.forward(Duration.ofSeconds(1));
        assertThat(rig.register(1, 44)).isEqualTo(200);
    }

    @Test
    void aNewerWinnerReplacesOneThatWaits() {
        rig.ask(LOAD, "35");
        rig.ask(LOAD, "36");
        rig.work();
        assertThat(rig.unit.frames).hasSize(1);
        assertThat(rig.register(1, 44)).isEqualTo(360);
    }

    @Test
    void silenceSkipsStepIntervalAndBudgetAndActsOnce() {
        rig.ask(LOAD, "40");
        rig.work();
        rig.forward(GateRig.INTERVAL);
        rig.ask(LOAD, "50");
        rig.work();
        rig.giveUp(LOAD, 8);
        rig.work();
        assertThat(rig.register(1, 44)).isEqualTo(200);
        rig.forward(Duration.ofHours(1));
        assertThat(rig.unit.frames).hasSize(3);
        assertThat(rig.gate.isQuiet()).isTrue();
    }

    @Test
    void silenceIsTriedUntilItIsThere() {
        rig.ask(LOAD, "40");
        rig.work();
        rig.unit.manner = RecordingUnit.Manner.IGNORES_AND_IS_SILENT;
        rig.giveUp(LOAD, 8);
        rig.forward(Duration.ofSeconds(30));
        assertThat(rig.register(1, 44)).isEqualTo(400);
        assertThat(rig.gate.statuses().get(0).silenceOwed()).isTrue();
        rig.unit.manner = RecordingUnit.Manner.WELL;
        rig.forward(Duration.ofMinutes(2));
        assertThat(rig.register(1, 44)).isEqualTo(200);
        assertThat(rig.gate.statuses().get(0).silenceOwed()).isFalse();
    }

    @Test
    void silenceActsAtOnceWhenAControllerThatWasAwayIsBack() {
        rig.ask(LOAD, "40");
        rig.work();
        link(ControllerLink.down(ControllerLink.Cause.NO_REPLY, "no reply", rig.clock.now()));
        rig.giveUp(LOAD, 8);
        // In the midst of the longest pause between two tries.
        rig.forward(Duration.ofMinutes(10).plusSeconds(20));
        assertThat(rig.register(1, 44)).isEqualTo(400);
        link(ControllerLink.up(rig.clock.now()));
        rig.forward(Duration.ofSeconds(1));
        assertThat(rig.register(1, 44)).isEqualTo(200);
    }

    private void link(ControllerLink link) {
        rig.site.controllers().stream()
                .filter(one -> one.name().text().equals("boiler-1"))
                .forEach(one -> rig.table.publish(one, link));
    }

    @Test
    void whatWasNeverDemandedIsNotTakenBack() {
        rig.unit.answers = false;
        rig.ask(LOAD, "35");
        rig.work();
        rig.unit.answers = true;
        rig.giveUp(LOAD, 8);
        rig.forward(Duration.ofHours(1));
        assertThat(rig.unit.frames).isEmpty();
    }

    @Test
    void anUnknownOutcomeIsReadAndNotRepeated() {
        rig.unit.manner = RecordingUnit.Manner.APPLIES_AND_IS_SILENT;
        rig.ask(LOAD, "35");
        rig.work();
        assertThat(rig.kinds()).containsExactly(WriteEvent.Kind.WRITTEN);
        rig.forward(GateRig.INTERVAL);
        rig.unit.manner = RecordingUnit.Manner.IGNORES_AND_IS_SILENT;
        rig.ask(LOAD, "36");
        rig.forward(Duration.ofMinutes(5));
        assertThat(rig.unit.frames).hasSize(2);
        assertThat(rig.kinds()).containsExactly(WriteEvent.Kind.WRITTEN, WriteEvent.Kind.FAILED);
    }

    @Test
    void toAskForTheSameAfterAFailureIsToTryAgain() {
        rig.unit.manner = RecordingUnit.Manner.ACCEPTS_AND_IGNORES;
        rig.ask(LOAD, "35");
        rig.forward(GateRig.INTERVAL.plusSeconds(1));
        assertThat(rig.kinds()).containsExactly(WriteEvent.Kind.FAILED);
        rig.unit.manner = RecordingUnit.Manner.WELL;
        rig.poll();
        assertThat(rig.ask(LOAD, "35")).isEqualTo(TO_BE_WRITTEN);
        rig.work();
        assertThat(rig.register(1, 44)).isEqualTo(350);
    }

    @Test
    void aControllerThatTakesItsTimeIsReadAgain() {
        rig.unit.manner = RecordingUnit.Manner.APPLIES_LATE;
        rig.ask(LOAD, "35");
        rig.forward(Duration.ofSeconds(2));
        assertThat(rig.kinds()).containsExactly(WriteEvent.Kind.WRITTEN);
        assertThat(rig.unit.frames).hasSize(1);
    }

    @Test
    void aRefusalOfTheControllerIsTold() {
        rig.unit.manner = RecordingUnit.Manner.REFUSES;
        rig.ask(LOAD, "35");
        rig.forward(Duration.ofMinutes(5));
        assertThat(rig.events).hasSize(1);
        assertThat(rig.events.get(0).sentence()).contains("exception 3");
        assertThat(rig.unit.frames).hasSize(1);
    }

    @Test
    void someBitsOfARegisterAreWrittenAndTheOthersLeft() {
        rig.unit.set(1, RegisterTable.HOLDING_REGISTER, 46, 0xFFCF);
        rig.poll();
        rig.ask(MODE, "1");
        rig.work();
        assertThat(rig.register(1, 46)).isEqualTo(0xFFDF);
    }

    @Test
    void anotherWriterPutsThePermitToSleep() {
        rig.ask(LOAD, "35");
        rig.work();
        rig.poll();
        rig.unit.set(1, RegisterTable.HOLDING_REGISTER, 44, 700);
        rig.poll();
        assertThat(rig.kinds()).containsExactly(WriteEvent.Kind.WRITTEN, WriteEvent.Kind.ASLEEP);
        assertThat(refusal("36")).isEqualTo(Question.APPROVED);
        rig.forward(Duration.ofHours(1));
        assertThat(rig.register(1, 44)).isEqualTo(700);
        GateRig restarted = rig.restarted(true);
        restarted.forward(GateRig.INTERVAL);
        assertThat(refusal(restarted.ask(LOAD, "30"))).isEqualTo(Question.APPROVED);
    }

    @Test
    void aRepeatedRequestHasItsAnswerAndIsNotDoneAgain() {
        RequestKey key = new RequestKey(GateRig.STATION, 7, new byte[] {1, 2, 3});
        Ask ask = new Ask(
                LOAD,
                new Wanted.Number(new BigDecimal("35")),
                8,
                GateRig.STATION,
                OptionalLong.empty(),
                Optional.of(key));
        assertThat(rig.gate.ask(ask)).isEqualTo(TO_BE_WRITTEN);
        rig.work();
        rig.clock.forward(Duration.ofSeconds(3));
        assertThat(rig.gate.ask(ask)).isEqualTo(TO_BE_WRITTEN);
        rig.work();
        assertThat(rig.unit.frames).hasSize(1);
    }

    @Test
    void oneRequestForSeveralPointsHasAnAnswerForEachOfThem() {
        Optional<RequestKey> key = Optional.of(new RequestKey(GateRig.STATION, 7, new byte[] {1, 2, 3}));
        Wanted number = new Wanted.Number(new BigDecimal("35"));
        assertThat(rig.gate.ask(new Ask(LOAD, number, 8, GateRig.STATION, OptionalLong.empty(), key)))
                .isEqualTo(TO_BE_WRITTEN);
        assertThat(refusal(rig.gate.ask(new Ask(LIMIT, number, 8, GateRig.STATION, OptionalLong.empty(), key))))
                .isEqualTo(Question.PERMIT);
        assertThat(rig.gate.ask(new Ask(OTHER_LOAD, number, 8, GateRig.STATION, OptionalLong.empty(), key)))
                .isEqualTo(TO_BE_WRITTEN);
        rig.work();
        assertThat(rig.register(2, 44)).isEqualTo(350);
    }

    @Test
    void aWriteThatALateReplyCouldBeTakenForWaitsAndHoldsTheLineUpForNothing() {
        rig.unit.writesIn = Duration.ofSeconds(3);
        rig.ask(LOAD, "35");
        assertThat(rig.writer.readyAt(rig.clock.ticks()))
                .hasValue(rig.clock.ticks() + Duration.ofSeconds(3).toNanos());
        rig.writer.run();
        assertThat(rig.unit.frames).isEmpty();
        assertThat(rig.unit.reads).isEmpty();
        rig.unit.writesIn = Duration.ZERO;
        rig.work();
        assertThat(rig.register(1, 44)).isEqualTo(350);
    }

    @Test
    void aHeartbeatBeatsOnlyWhileEveryDemandAndEnableStands() {
        GateRig beating = new GateRig(new Kept(), GateRig.site(GateRig.permitsWithBeat()), true);
        beating.forward(GateRig.INTERVAL);
        beating.ask(LOAD, "30");
        beating.forward(Duration.ofSeconds(10));
        assertThat(beating.register(1, 48)).isZero();
        beating.ask(ENABLE, "1");
        beating.forward(Duration.ofSeconds(1));
        assertThat(beating.register(1, 48)).isEqualTo(1);
        beating.forward(Duration.ofSeconds(7));
        assertThat(beating.register(1, 48)).isZero();
        long frames = beating.unit.frames.size();
        beating.giveUp(ENABLE, 8);
        beating.forward(Duration.ofMinutes(1));
        assertThat(beating.unit.frames).hasSize((int) frames + 1);
        assertThat(refusal(beating.ask(GateRig.BEAT, "1"))).isEqualTo(Question.PERMIT);
    }

    @Test
    void aGateThatClosesTakesBackWhatStandsAndLetsNobodyAsk() {
        rig.ask(LOAD, "40");
        rig.ask(ENABLE, "1");
        rig.work();
        rig.gate.close("the bridge ends");
        assertThat(rig.gate.isQuiet()).isFalse();
        assertThat(refusal("39")).isEqualTo(Question.APPROVED);
        rig.work();
        assertThat(rig.gate.isQuiet()).isTrue();
        assertThat(rig.register(1, 44)).isEqualTo(200);
        assertThat(rig.unit.get(1, RegisterTable.COIL, 16)).isZero();
    }

    @Test
    void aDemandThatStoodBeforeARestartHasItsWholeLeaseAgain() {
        rig.ask(LOAD, "40");
        rig.work();
        GateRig restarted = rig.restarted(true);
        restarted.forward(GateRig.LEASE.minusSeconds(1));
        assertThat(restarted.unit.frames).hasSize(1);
        restarted.forward(Duration.ofSeconds(2));
        assertThat(restarted.register(1, 44)).isEqualTo(200);
        GateRig again = restarted.restarted(true);
        again.forward(GateRig.LEASE.multipliedBy(2));
        assertThat(again.unit.frames).hasSize(2);
    }

    @Test
    void whereTheApprovalHasLapsedNothingIsWrittenForSilenceAndThatIsTold() {
        rig.ask(LOAD, "40");
        rig.work();
        GateRig lapsed = rig.restarted(false);
        lapsed.forward(GateRig.LEASE.plusMinutes(1));
        assertThat(lapsed.unit.frames).hasSize(1);
        assertThat(lapsed.kinds()).contains(WriteEvent.Kind.SILENCE, WriteEvent.Kind.FAILED);
    }
}
