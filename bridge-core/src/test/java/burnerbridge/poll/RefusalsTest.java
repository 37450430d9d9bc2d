package burnerbridge.poll;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.line.ReadRequest;
import burnerbridge.model.Reason;
import burnerbridge.site.ControllerDefinition;
import burnerbridge.site.PointFormat;
import burnerbridge.site.Points;
import burnerbridge.site.RegisterTable;
import burnerbridge.site.Scaling;
import burnerbridge.site.States;
import burnerbridge.table.ControllerLink.State;
import java.time.Duration;
import java.util.List;
import org.assertj.core.api.InstanceOfAssertFactories;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** What each exception of a controller makes of its points, and of what it is asked next. */
class RefusalsTest {
    private final ControllerDefinition first = Points.controller(
            0,
            "boiler-1",
            1,
            Points.uint16("starts", 10),
            Points.uint16("hours", 20),
            Points.point("water", RegisterTable.INPUT_REGISTER, 30, PointFormat.UINT16, Scaling.NONE, States.NONE));
    private final ControllerDefinition second = Points.controller(1, "boiler-2", 2, Points.uint16("starts", 10));
    private final PollRig rig = new PollRig(first, second);
    private final Told told = new Told();

    @AfterEach
    void deaf() {
        told.close();
    }

    private List<String> warnings() {
        return told.warnings();
    }

    private static boolean isHolding(ReadRequest request) {
        return request.unit().number() == 1 && request.table() == RegisterTable.HOLDING_REGISTER;
    }

    private void firstRefusesHolding(int code) {
        rig.transport.answer = r -> isHolding(r) ? rig.refused(r, code) : rig.answered(r);
    }

    @Test
    void aFunctionThatTheControllerDoesNotKnowIsRefusedAsAWholeAndToldOnce() {
        firstRefusesHolding(1);
        rig.runFor(Duration.ofSeconds(60));
        assertThat(List.of(0, 1)).allSatisfy(point -> {
            assertThat(rig.reading(point).reason()).isEqualTo(Reason.REFUSED);
            assertThat(rig.reading(point).exceptionCode()).isEqualTo(1);
        });
        assertThat(rig.reading(2).isGood()).isTrue();
        assertThat(rig.table.link(first).state()).isEqualTo(State.UP);
        // Both once, and then one read every 2 s stands for both.
        assertThat(rig.transport.asked.stream().filter(RefusalsTest::isHolding)).hasSizeBetween(30, 32);
        assertThat(warnings())
                .containsExactly("line annex: controller boiler-1: does not know function 3: exception 1, illegal"
                        + " function, to every read by it");
    }

    @Test
    void anAbsentFunctionNeverLooksOldWhileItIsFoundAbsent() {
        firstRefusesHolding(1);
        rig.runFor(Duration.ofSeconds(60));
        assertThat(List.of(0, 1))
                .allSatisfy(point -> assertThat(java.util.Objects.requireNonNull(
                                        rig.reading(point).askedAt())
                                .ageAt(rig.clock.ticks()))
                        .isLessThan(Duration.ofSeconds(3).toNanos()));
    }

    @Test
    void aFunctionThatIsThereAfterAllIsReadInFull() {
        firstRefusesHolding(1);
        rig.runFor(Duration.ofSeconds(10));
        rig.transport.answer = rig::answered;
        rig.runFor(Duration.ofSeconds(5));
        assertThat(rig.points)
                .allSatisfy(
                        point -> assertThat(rig.table.reading(point).isGood()).isTrue());
    }

    @Test
    void aFunctionThatWasAnsweredBeforeIsNotAbsentForOneBlockThatSaysSo() {
        rig.transport.answer = r -> r.first() == 20 ? rig.refused(r, 1) : rig.answered(r);
        rig.runFor(Duration.ofSeconds(10));
        assertThat(rig.reading(0).isGood()).isTrue();
        assertThat(rig.reading(1).reason()).isEqualTo(Reason.REFUSED);
        assertThat(warnings())
                .containsExactly(
                        "line annex: boiler-1.hours at holding-register 21 (wire 20): is refused with exception"
                                + " 1, illegal function");
    }

    @ParameterizedTest
    @ValueSource(ints = {2, 3, 8, 9, 255})
    void aRefusalOfRegistersIsToldOnceForEachPoint(int code) {
        firstRefusesHolding(code);
        rig.runFor(Duration.ofSeconds(60));
        assertThat(List.of(0, 1))
                .allSatisfy(point -> assertThat(rig.reading(point).reason()).isEqualTo(Reason.REFUSED));
        assertThat(warnings()).hasSize(2);
        assertThat(warnings().get(0))
                .startsWith("line annex: boiler-1.starts at holding-register 11 (wire 10): is refused with exception "
                        + code);
    }

    @Test
    void aFaultOfTheControllerIsSaidToBeOne() {
        firstRefusesHolding(4);
        rig.runFor(Duration.ofSeconds(60));
        assertThat(rig.reading(0).reason()).isEqualTo(Reason.REFUSED);
        assertThat(rig.reading(0).exceptionCode()).isEqualTo(4);
        assertThat(rig.reading(2).isGood()).isTrue();
        assertThat(warnings())
                .containsExactly("line annex: controller boiler-1: reports a failure of its own (exception 4, server"
                        + " device failure) when asked for boiler-1.starts at holding-register 11 (wire 10)");
    }

    @ParameterizedTest
    @ValueSource(ints = {5, 6})
    void aBusyControllerIsLeftAloneForPausesThatGrow(int code) {
        rig.runFor(Duration.ofMillis(100));
        rig.transport.asked.clear();
        rig.transport.answer = r -> r.unit().number() == 1 ? rig.refused(r, code) : rig.answered(r);
        rig.runFor(Duration.ofSeconds(60));
        // All three at 2 s; then one after 1, 2, 4, 8 and every 10 s, and none in between.
        assertThat(rig.asks(1)).isBetween(10L, 12L);
        assertThat(rig.asks(2)).isBetween(29L, 31L);
        assertThat(rig.table.link(first).state()).isEqualTo(State.UP);
        assertThat(rig.reading(0).reason()).isEqualTo(Reason.NONE);
        assertThat(warnings())
                .singleElement(InstanceOfAssertFactories.STRING)
                .startsWith("line annex: controller boiler-1: has been busy for 15 s (exception " + code);
    }

    @Test
    void aControllerThatWasBusyIsReadInFullAgain() {
        rig.transport.answer = r -> r.unit().number() == 1 ? rig.refused(r, 6) : rig.answered(r);
        rig.runFor(Duration.ofSeconds(40));
        rig.transport.answer = rig::answered;
        rig.transport.asked.clear();
        rig.runFor(Duration.ofSeconds(12));
        assertThat(rig.points)
                .allSatisfy(
                        point -> assertThat(rig.table.reading(point).isGood()).isTrue());
        assertThat(told.all()).contains("line annex: controller boiler-1: is no longer busy");
        // Busy again, it is again asked after the first pause.
        rig.transport.answer = r -> r.unit().number() == 1 ? rig.refused(r, 6) : rig.answered(r);
        rig.transport.asked.clear();
        rig.runFor(Duration.ofSeconds(4));
        assertThat(rig.asks(1)).isGreaterThanOrEqualTo(2);
    }

    @Test
    void aReadThatMetABusyControllerIsMadeAgainLongBeforeItsInterval() {
        ControllerDefinition slow = Points.controller(0, "boiler-1", 1, Points.every("nozzle", 5, Duration.ofHours(1)));
        PollRig hourly = new PollRig(slow);
        hourly.transport.answer = r -> hourly.refused(r, 6);
        hourly.runFor(Duration.ofMillis(500));
        hourly.transport.answer = hourly::answered;
        hourly.runFor(Duration.ofSeconds(1));
        assertThat(hourly.reading(0).isGood()).isTrue();
    }

    @Test
    void busyNeverCountsAsSilence() {
        rig.transport.answer = r -> r.first() == 10 ? rig.silent(r) : rig.refused(r, 6);
        rig.runFor(Duration.ofMinutes(2));
        assertThat(rig.table.link(first).state()).isEqualTo(State.UP);
    }

    /** Silent, then busy, then silent again: each read of it was unanswered often, but never alone. */
    @Test
    void ofALostControllerNotEachReadIsTold() {
        rig.runFor(Duration.ofSeconds(5));
        for (int seconds = 20; seconds < 50; seconds++) {
            rig.transport.answer = r -> r.unit().number() == 1 ? rig.silent(r) : rig.answered(r);
            rig.runFor(Duration.ofSeconds(seconds));
            rig.transport.answer = r -> r.unit().number() == 1 ? rig.refused(r, 6) : rig.answered(r);
            rig.runFor(Duration.ofSeconds(55));
        }
        assertThat(warnings())
                .filteredOn(w -> w.contains("is lost: no reply to unit 1"))
                .hasSize(30);
        assertThat(warnings()).noneMatch(w -> w.contains("in a row"));
    }
}
