package burnerbridge.write;

import static burnerbridge.write.GateRig.LOAD;
import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.model.BitValue;
import burnerbridge.model.IntegerValue;
import burnerbridge.model.Reading;
import burnerbridge.model.RealValue;
import burnerbridge.model.Reason;
import burnerbridge.model.Registers;
import burnerbridge.model.StateValue;
import burnerbridge.model.TextValue;
import burnerbridge.site.PointId;
import burnerbridge.site.SitePoint;
import burnerbridge.site.permit.AddressBlock;
import burnerbridge.site.permit.Allowed;
import burnerbridge.site.permit.Askers;
import burnerbridge.site.permit.Functions;
import burnerbridge.site.permit.Purpose;
import burnerbridge.site.permit.Silence;
import burnerbridge.site.permit.Storage;
import burnerbridge.site.permit.WritePermit;
import burnerbridge.write.ask.Decision;
import burnerbridge.write.ask.Question;
import java.math.BigDecimal;
import java.time.Duration;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** In which words each question says no, and where its limit lies to the last step. */
class QuestionsTest {
    private final GateRig rig = GateRig.ready();

    private static Decision no(Question question, String sentence) {
        return new Decision.Refused(question, sentence);
    }

    private static final Decision TO_BE_WRITTEN = new Decision.Admitted(Decision.Standing.TO_BE_WRITTEN);

    private static GateRig with(WritePermit permit) {
        return waited(new GateRig(new Kept(), GateRig.site(List.of(permit)), true));
    }

    private static GateRig waited(GateRig rig) {
        rig.forward(GateRig.INTERVAL);
        return rig;
    }

    /** The load without a step, in a range, on a memory. */
    private static WritePermit load(String low, String high, Storage storage) {
        return new WritePermit(
                LOAD,
                new Purpose.Asked(
                        new Askers(List.of(AddressBlock.parse("192.0.2.0/24").orElseThrow()), false),
                        new Allowed.Range(new BigDecimal(low), new BigDecimal(high)),
                        Optional.empty(),
                        GateRig.INTERVAL,
                        12,
                        Optional.of(new Silence(GateRig.LEASE, new Silence.Action.Write(new BigDecimal(low))))),
                Functions.SINGLE_REGISTER,
                storage,
                "summer demand");
    }

    @Test
    void aPointThatIsNotThere() {
        assertThat(rig.ask(GateRig.id("boiler-1", "load"), "30"))
                .isEqualTo(no(Question.KNOWN_POINT, "boiler-1.load is not known here"));
    }

    @Test
    void aPointWithoutPermitAndASlotThatIsKept() {
        assertThat(rig.ask(GateRig.LIMIT, "30"))
                .isEqualTo(no(Question.PERMIT, "boiler-1.high-limit has no write permit"));
        assertThat(rig.ask(LOAD, "30", 6))
                .isEqualTo(no(Question.PERMIT, "slot 6 of boiler-1.load-demand is kept and cannot be asked for"));
        assertThat(rig.ask(LOAD, "30", 5)).isEqualTo(TO_BE_WRITTEN);
    }

    @Test
    void aRoleThatIsNeverWrittenAndAnotherNameOfItsRegister() {
        GateRig mistyped = waited(new GateRig(new Kept(), GateRig.mistyped(), true));
        assertThat(mistyped.ask(GateRig.LIMIT, "30"))
                .isEqualTo(no(Question.ROLE, "boiler-1.high-limit is a safety-setting, which is never written"));
        assertThat(mistyped.ask(GateRig.id("boiler-1", "alias"), "30"))
                .isEqualTo(no(
                        Question.PROTECTED,
                        "boiler-1.alias at holding-register 7 (wire 6) meets what is never written: high-limit of"
                                + " boiler-1 at holding-register 7 (wire 6), whose role is safety-setting"));
    }

    @Test
    void aRangeHoldsItsEndsAndNothingBeyond() {
        GateRig free = with(load("20", "90", Storage.VOLATILE));
        assertThat(free.ask(LOAD, "90.1"))
                .isEqualTo(no(Question.RANGE, "boiler-1.load-demand may be written 20..90 (was 90.1)"));
        assertThat(free.ask(LOAD, "19.99"))
                .isEqualTo(no(Question.RANGE, "boiler-1.load-demand may be written 20..90 (was 19.99)"));
        assertThat(free.ask(LOAD, "90")).isEqualTo(TO_BE_WRITTEN);
        assertThat(free.ask(LOAD, "20")).isEqualTo(TO_BE_WRITTEN);
    }

    @Test
    void whatTheRegistersWouldHoldMustBeInTheRangeToo() {
        GateRig narrow = with(load("20", "89.96", Storage.VOLATILE));
        assertThat(narrow.ask(LOAD, "89.96"))
                .isEqualTo(no(
                        Question.RANGE,
                        "boiler-1.load-demand may be written 20..89.96 (was 89.96, for which its registers would hold"
                                + " 90.0)"));
        assertThat(narrow.ask(LOAD, "89.94")).isEqualTo(TO_BE_WRITTEN);
    }

    @Test
    void whatTheRegistersCannotHoldIsNotWrittenThoughItIsInTheRange() {
        GateRig wide = with(load("20", "9000", Storage.VOLATILE));
        assertThat(wide.ask(LOAD, "6553.6"))
                .isEqualTo(no(Question.RANGE, "the registers of boiler-1.load-demand cannot hold 6553.6"));
        assertThat(wide.ask(LOAD, "6553.5")).isEqualTo(TO_BE_WRITTEN);
    }

    @Test
    void aStepIsMeasuredFromWhatIsThereAndOnlyWhereThatIsKnown() {
        assertThat(rig.ask(LOAD, "40.1"))
                .isEqualTo(no(
                        Question.STEP,
                        "one write may change boiler-1.load-demand by 10, and from 30.0 to 40.1 is more"));
        SitePoint load = rig.site.points().stream()
                .filter(point -> point.id().equals(LOAD))
                .findFirst()
                .orElseThrow();
        rig.table.publish(load, Reading.bad(Reason.OVER_RANGE, rig.clock.now(), Registers.of(300), rig.reading(LOAD)));
        assertThat(rig.ask(LOAD, "31"))
                .isEqualTo(no(
                        Question.STEP,
                        "what boiler-1.load-demand is now is not known, so that no step can be measured from it"));
    }

    /** What was read before the last write tells nothing of what is there now; that it was read back does. */
    @Test
    void aStepIsMeasuredFromTheReadBackUntilAnybodyHasReadAgain() {
        rig.ask(LOAD, "40");
        rig.work();
        rig.clock.forward(GateRig.INTERVAL);
        assertThat(rig.ask(LOAD, "50.1"))
                .isEqualTo(no(
                        Question.STEP,
                        "one write may change boiler-1.load-demand by 10, and from 40.0 to 50.1 is more"));
    }

    @Test
    void anIntervalEndsToTheTick() {
        long[] sentAt = new long[1];
        rig.unit.beforeWrite = () -> sentAt[0] = rig.clock.ticks();
        rig.ask(LOAD, "31");
        rig.work();
        rig.clock.forward(Duration.ofNanos(sentAt[0] + GateRig.INTERVAL.toNanos() - 1 - rig.clock.ticks()));
        assertThat(rig.ask(LOAD, "32"))
                .isEqualTo(no(
                        Question.INTERVAL,
                        "boiler-1.load-demand may be written once in 60 s, and 0.1 s of them are left"));
        rig.clock.forward(Duration.ofNanos(1));
        assertThat(rig.ask(LOAD, "32")).isEqualTo(TO_BE_WRITTEN);
    }

    /** Of 500 writes the last five are kept, of 100,000 and more a hundred, of a few at least one. */
    @ParameterizedTest
    @CsvSource({"500, 5", "100000, 100", "10000, 100", "9999, 99", "20, 1", "1, 1"})
    void theLastOfItsWritesAreKeptForSilence(long lifetime, long reserve) {
        assertThat(Interrogation.reserve(lifetime)).isEqualTo(reserve);
        assertThat(budget(lifetime, lifetime - reserve))
                .isEqualTo(no(
                        Question.BUDGET,
                        (lifetime - reserve) + " of the " + lifetime
                                + " writes that the memory of boiler-1.load-demand may take are spent; the last "
                                + reserve + " are kept for silence"));
        if (lifetime > reserve) {
            assertThat(budget(lifetime, lifetime - reserve - 1)).isEqualTo(TO_BE_WRITTEN);
        }
    }

    private static Decision budget(long lifetime, long spent) {
        Kept kept = new Kept();
        kept.spend(LOAD, spent);
        return waited(new GateRig(kept, GateRig.site(List.of(load("20", "90", Storage.nonVolatile(lifetime)))), true))
                .ask(LOAD, "31");
    }

    @Test
    void whoAnswersIsNotKnown() {
        GateRig unknown = new GateRig();
        PointId serial = GateRig.id("boiler-1", "serial");
        unknown.forward(GateRig.INTERVAL);
        SitePoint point = unknown.site.points().stream()
                .filter(one -> one.id().equals(serial))
                .findFirst()
                .orElseThrow();
        unknown.table.publish(
                point, Reading.bad(Reason.UNREADABLE, unknown.clock.now(), Registers.of(0x0700), Reading.notReadYet()));
        assertThat(unknown.ask(LOAD, "31"))
                .isInstanceOfSatisfying(
                        Decision.Refused.class,
                        refused -> assertThat(refused.question()).isEqualTo(Question.IDENTITY));
    }

    @Test
    void aValueIsANumberOrNone() {
        assertThat(Interrogation.number(new RealValue(new BigDecimal("2.5"), 1)))
                .contains(new BigDecimal("2.5"));
        assertThat(Interrogation.number(IntegerValue.of(7))).contains(new BigDecimal("7"));
        assertThat(Interrogation.number(new StateValue(3, "high"))).contains(new BigDecimal("3"));
        assertThat(Interrogation.number(new BitValue(true))).contains(BigDecimal.ONE);
        assertThat(Interrogation.number(new BitValue(false))).contains(BigDecimal.ZERO);
        assertThat(Interrogation.number(new TextValue("7"))).isEmpty();
    }
}
