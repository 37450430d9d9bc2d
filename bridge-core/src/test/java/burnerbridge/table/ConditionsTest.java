package burnerbridge.table;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.model.HandClock;
import burnerbridge.model.IntegerValue;
import burnerbridge.model.Reading;
import burnerbridge.model.Reason;
import burnerbridge.model.Registers;
import burnerbridge.model.StateValue;
import burnerbridge.site.Condition;
import burnerbridge.site.ControllerDefinition;
import burnerbridge.site.Name;
import burnerbridge.site.PointOptions;
import burnerbridge.site.Points;
import burnerbridge.site.SitePoint;
import java.time.Duration;
import java.util.List;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** A flue temperature that means something in the phases 5 and 6. */
class ConditionsTest {
    private final HandClock clock = new HandClock();
    private final ControllerDefinition boiler = Points.controller(
            0,
            "boiler-1",
            1,
            Points.uint16("flue", 0).with(PointOptions.when(new Condition(new Name("phase"), Set.of(5L, 6L)))),
            Points.uint16("phase", 1),
            Points.uint16("starts", 2));
    private final List<SitePoint> points = Points.of(boiler);
    private final SitePoint flue = points.get(0);
    private final SitePoint phase = points.get(1);
    private final ValueTable table = new ValueTable(points, List.of(boiler));
    private final Conditions conditions = table.conditions();

    private Reading good(int number) {
        return Reading.good(IntegerValue.of(number), clock.now(), Registers.of(number));
    }

    private void phase(int number) {
        table.publish(phase, Reading.good(new StateValue(number, "text"), clock.now(), Registers.of(number)));
    }

    private Reading reading(Reason reason) {
        return switch (reason) {
            case NONE -> good(7);
            case NOT_READ_YET -> Reading.notReadYet();
            case REFUSED -> Reading.refused(2, clock.now(), good(1));
            case NO_REPLY, LINE_DOWN -> good(1).staled(reason);
            case UNKNOWN_STATE ->
                Reading.uncertain(new StateValue(99, null), reason, clock.now(), Registers.of(99), good(1));
            default -> Reading.bad(reason, clock.now(), Registers.of(7), good(1));
        };
    }

    @Test
    void aPointWithoutAConditionIsLeftAsItIs() {
        Reading starts = good(3);
        assertThat(conditions.held(points.get(2), starts)).isSameAs(starts);
        assertThat(conditions.isMet(points.get(2))).isTrue();
        assertThat(conditions.dependents(phase)).containsExactly(flue);
    }

    @ParameterizedTest
    @CsvSource({"5, NONE", "6, NONE", "4, NOT_APPLICABLE", "56, NOT_APPLICABLE"})
    void aReadingCountsInTheStatesOfItsConditionOnly(int state, Reason reason) {
        phase(state);
        assertThat(conditions.held(flue, good(180)).reason()).isEqualTo(reason);
    }

    @Test
    void whatDoesNotApplyHasNoValueButTheLastGoodOneOfBefore() {
        phase(5);
        table.publish(flue, conditions.held(flue, good(180)));
        Reading before = table.reading(flue);
        clock.forward(Duration.ofSeconds(2));
        phase(1);
        table.publish(flue, conditions.held(flue, good(33)));
        Reading after = table.reading(flue);
        assertThat(after.value()).isNull();
        assertThat(after.reason()).isEqualTo(Reason.NOT_APPLICABLE);
        assertThat(after.askedAt()).isEqualTo(clock.now());
        assertThat(after.newestGood()).isEqualTo(before.newestGood());
    }

    @Test
    void whatWasGoodIsNotApplicableOnceItsConditionEndsAndStaysSoUntilItIsReadAgain() {
        phase(6);
        table.publish(flue, good(180));
        phase(7);
        conditions.settle(flue);
        assertThat(table.reading(flue).reason()).isEqualTo(Reason.NOT_APPLICABLE);
        assertThat(table.reading(flue).newestGood().orElseThrow().value()).isEqualTo(IntegerValue.of(180));
        phase(5);
        conditions.settle(flue);
        assertThat(table.reading(flue).reason()).isEqualTo(Reason.NOT_APPLICABLE);
        table.publish(flue, conditions.held(flue, good(181)));
        assertThat(table.reading(flue).isGood()).isTrue();
    }

    @ParameterizedTest
    @CsvSource({
        // the reading by itself, that of the condition's point, what comes of the two
        "NONE, NOT_READ_YET, NOT_READ_YET",
        "NONE, NO_REPLY, NO_REPLY",
        "NONE, LINE_DOWN, LINE_DOWN",
        "NONE, REFUSED, REFUSED",
        "NONE, UNREADABLE, UNREADABLE",
        "NONE, UNKNOWN_STATE, NOT_APPLICABLE",
        "UNKNOWN_STATE, NO_REPLY, NO_REPLY",
        "NO_SENSOR, NO_REPLY, NO_SENSOR",
        "NO_SENSOR, REFUSED, NO_SENSOR",
        "NO_SENSOR, UNKNOWN_STATE, NOT_APPLICABLE",
        "REFUSED, NO_REPLY, REFUSED",
        "REFUSED, UNKNOWN_STATE, REFUSED",
        "NO_REPLY, REFUSED, NO_REPLY",
        "NOT_READ_YET, NO_REPLY, NOT_READ_YET"
    })
    void whileNobodyKnowsTheStateTheReadingIsNoBetterThanThat(Reason own, Reason condition, Reason expected) {
        table.publish(phase, reading(condition));
        Reading held = conditions.held(flue, reading(own));
        assertThat(held.reason()).isEqualTo(expected);
        assertThat(held.exceptionCode()).isEqualTo(expected == Reason.REFUSED ? 2 : 0);
        assertThat(held.isGood()).isFalse();
    }

    @ParameterizedTest
    @CsvSource({"NO_SENSOR, NOT_APPLICABLE", "OVER_RANGE, NOT_APPLICABLE", "REFUSED, REFUSED", "NO_REPLY, NO_REPLY"})
    void outsideItsStatesAReplyDoesNotApplyWhateverItHeldAndNoReplyIsStillNone(Reason own, Reason expected) {
        phase(1);
        assertThat(conditions.held(flue, reading(own)).reason()).isEqualTo(expected);
    }

    @Test
    void theSweepTakesWhatHangsOnAStaleStateAlong() {
        phase(5);
        clock.forward(Duration.ofSeconds(5));
        table.publish(flue, good(180));
        ChangeFeed feed = table.subscribe();
        clock.forward(Duration.ofSeconds(5));
        new StaleSweep(table).step(clock.ticks());
        assertThat(table.reading(flue).reason()).isEqualTo(Reason.NO_REPLY);
        assertThat(table.reading(flue).newestGood().orElseThrow().value()).isEqualTo(IntegerValue.of(180));
        assertThat(feed.drain()).hasSize(2);
    }
}
