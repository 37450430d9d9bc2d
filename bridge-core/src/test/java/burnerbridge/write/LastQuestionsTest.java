package burnerbridge.write;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.model.Reading;
import burnerbridge.model.RealValue;
import burnerbridge.model.Registers;
import burnerbridge.site.Name;
import burnerbridge.site.SitePoint;
import burnerbridge.write.ask.Ask;
import burnerbridge.write.ask.Decision;
import burnerbridge.write.ask.Wanted;
import java.math.BigDecimal;
import java.time.Duration;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.function.Consumer;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

/**
 * What was admitted is asked everything again when it has its turn, and once more right before it leaves. Whatever has
 * happened meanwhile keeps it back.
 */
class LastQuestionsTest {
    private static final Map<Name, String> IDENTITIES = Map.of(new Name("boiler-1"), "S1", new Name("boiler-2"), "S2");

    private final GateRig rig = GateRig.ready();

    private enum Happening {
        THE_CONTROLLER_IS_GONE("boiler-1 does not answer: no reply", rig -> rig.link("boiler-1", false)),
        ANOTHER_ANSWERS(
                "boiler-1 is S9 now, and S1 was approved",
                rig -> GateRig.identify(rig.table, rig.clock, "boiler-1", "S9")),
        TWO_SAY_THAT_THEY_ARE_THE_SAME(
                "boiler-1 and boiler-2 both say that they are S1",
                rig -> GateRig.identify(rig.table, rig.clock, "boiler-2", "S1")),
        THE_APPROVAL_IS_WITHDRAWN(
                "is not approved: a person has withdrawn it",
                rig -> rig.gate.shut(Authority.none("a person has withdrawn it"))),
        SOMETHING_ELSE_IS_APPROVED(
                "what boiler-1.load-demand was asked under is no longer what is approved",
                rig -> rig.gate.open(new Authority(Optional.of("another hash"), "", IDENTITIES))),
        IT_IS_FAR_FROM_WHAT_IS_THERE_NOW("one write may change boiler-1.load-demand by 10", rig -> present(rig, "80")),
        NO_RECORD_CAN_BE_KEPT("no record of a write can be kept", rig -> {
            rig.kept.disk.fail(true);
            rig.keeping.told(new WriteEvent(WriteEvent.Kind.HELD, GateRig.LOAD, "something to be kept"));
            rig.gate.step(rig.clock.ticks());
        });

        private final String sentence;
        private final Consumer<GateRig> what;

        Happening(String sentence, Consumer<GateRig> what) {
            this.sentence = sentence;
            this.what = what;
        }
    }

    private static void present(GateRig rig, String value) {
        SitePoint load = rig.site.points().stream()
                .filter(point -> point.id().equals(GateRig.LOAD))
                .findFirst()
                .orElseThrow();
        rig.table.publish(
                load, Reading.good(new RealValue(new BigDecimal(value), 1), rig.clock.now(), Registers.of(800)));
    }

    private void assertKeptBack(String sentence) {
        assertThat(rig.unit.frames).isEmpty();
        assertThat(rig.gate.statuses().get(0).held()).contains(sentence);
        assertThat(rig.kinds()).containsExactly(WriteEvent.Kind.HELD);
    }

    @ParameterizedTest
    @EnumSource
    void whatHappensBeforeItsTurnKeepsItBack(Happening happening) {
        assertThat(rig.ask(GateRig.LOAD, "31")).isEqualTo(new Decision.Admitted(Decision.Standing.TO_BE_WRITTEN));
        happening.what.accept(rig);
        rig.writer.run();
        assertKeptBack(happening.sentence);
    }

    @ParameterizedTest
    @EnumSource
    void whatHappensRightBeforeItLeavesKeepsItBack(Happening happening) {
        rig.ask(GateRig.LOAD, "31");
        rig.unit.whileEncoding = () -> happening.what.accept(rig);
        rig.writer.run();
        assertKeptBack(happening.sentence);
        assertThat(rig.keeping.isStanding(GateRig.LOAD)).isEqualTo(happening != Happening.NO_RECORD_CAN_BE_KEPT);
        rig.unit.whileEncoding = () -> {};
        rig.gate.step(rig.clock.ticks());
        assertThat(rig.keeping.isStanding(GateRig.LOAD))
                .as("taken back, as it never left")
                .isFalse();
    }

    @Test
    void anotherConnectionThanThatOnWhichTheIdentityWasReadKeepsItBack() {
        rig.ask(GateRig.LOAD, "31");
        rig.unit.whileEncoding = () -> rig.unit.connections++;
        rig.writer.run();
        assertKeptBack("the connection is another than a moment ago");
    }

    @Test
    void aGateThatClosesInTheLastMomentKeepsItBackAndOwesNothing() {
        rig.ask(GateRig.LOAD, "31");
        rig.unit.whileEncoding = () -> rig.gate.close("the bridge ends");
        rig.writer.run();
        rig.unit.whileEncoding = () -> {};
        assertThat(rig.unit.frames).isEmpty();
        rig.forward(Duration.ofSeconds(1));
        assertThat(rig.unit.frames).isEmpty();
        assertThat(rig.gate.isQuiet()).isTrue();
    }

    private void askUntil(Duration end, String value, int slot) {
        rig.gate.ask(new Ask(
                GateRig.LOAD,
                new Wanted.Number(new BigDecimal(value)),
                slot,
                GateRig.OPTIMISER,
                OptionalLong.of(rig.clock.ticks() + end.toNanos()),
                Optional.empty()));
    }

    @Test
    void whatHasItsTurnTooLateLosesItsSlotAndThatIsTold() {
        askUntil(Duration.ofSeconds(30), "31", 8);
        rig.clock.forward(Duration.ofSeconds(30));
        rig.unit.whileEncoding = () -> rig.clock.forward(Duration.ofNanos(1));
        rig.writer.run();
        assertThat(rig.unit.frames).isEmpty();
        assertThat(rig.gate.statuses().get(0).slots()).isEmpty();
        assertThat(rig.gate.statuses().get(0).held()).isEmpty();
        assertThat(rig.kinds()).containsExactly(WriteEvent.Kind.FAILED);
        assertThat(rig.events.get(0).sentence())
                .startsWith("mqtt plant optimiser was not written: the ask for boiler-1.load-demand came, or had its"
                        + " turn, too late: 0.1 s after its end");
    }

    @Test
    void whatWasBehindComesUpWhereTheWinnerHasItsTurnTooLate() {
        askUntil(Duration.ofSeconds(30), "31", 8);
        rig.ask(GateRig.LOAD, "33", 12);
        rig.clock.forward(Duration.ofSeconds(31));
        rig.work();
        assertThat(rig.unit.frames).hasSize(1);
        assertThat(rig.register(1, 44)).isEqualTo(330);
    }

    @Test
    void anAskMayLeaveInItsVeryLastMoment() {
        rig.ask(GateRig.ENABLE, "1");
        rig.work();
        askUntil(Duration.ofSeconds(30), "31", 8);
        rig.clock.forward(Duration.ofSeconds(30));
        rig.work();
        assertThat(rig.register(1, 44)).isEqualTo(310);
    }
}
