package burnerbridge.plan;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import burnerbridge.site.AddressRange;
import burnerbridge.site.Consistency;
import burnerbridge.site.ControllerDefinition;
import burnerbridge.site.ControllerType;
import burnerbridge.site.Limits;
import burnerbridge.site.LineDefinition;
import burnerbridge.site.LineDefinition.Parity;
import burnerbridge.site.LineDefinition.Rs485;
import burnerbridge.site.LineDefinition.Serial;
import burnerbridge.site.Name;
import burnerbridge.site.PointDefinition;
import burnerbridge.site.PointFormat;
import burnerbridge.site.Points;
import burnerbridge.site.ReadLimits;
import burnerbridge.site.ReadRules;
import burnerbridge.site.RegisterTable;
import burnerbridge.site.Scaling;
import burnerbridge.site.States;
import burnerbridge.site.UnitId;
import burnerbridge.site.WordOrder;
import java.time.Duration;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.OptionalInt;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** What a read may and may not take, and which of several plans is chosen. */
class CheapestPlanTest {
    private static final Duration SECOND = Duration.ofSeconds(1);
    /** By hand: a transaction without data is 13 + 7 characters, so ten registers of two are exactly as long. */
    private static final LineDefinition TWELVE_BITS = new LineDefinition(
            new Name("annex"), new Serial("/dev/ttyS0", 19_200, Parity.EVEN, 2, Rs485.AUTO, false), SECOND, SECOND);

    private static ReadRules rules(int most, AddressRange... reserved) {
        return new ReadRules(false, new ReadLimits(most, List.of()), Duration.ZERO, List.of(reserved));
    }

    private static LinePlan plan(ReadRules rules, Duration turnaround, List<PointDefinition> rows) {
        ControllerDefinition boiler = new ControllerDefinition(
                0,
                new Name("boiler-1"),
                TWELVE_BITS.name(),
                new UnitId(1),
                new ControllerType(new Name("type"), rows, rules),
                0);
        return LinePlan.of(TWELVE_BITS, Points.of(boiler), Turnarounds.all(turnaround));
    }

    private static String shape(LinePlan plan) {
        return plan.blocks().stream()
                .map(block -> block.requests().stream()
                        .map(read -> read.first() + "+" + read.count())
                        .collect(Collectors.joining("/")))
                .collect(Collectors.joining(" "));
    }

    private static String shape(ReadRules rules, PointDefinition... rows) {
        return shape(plan(rules, Duration.ZERO, List.of(rows)));
    }

    private static PointDefinition point(int wire) {
        return Points.every("p-" + wire, wire, SECOND);
    }

    private static PointDefinition notPolled(int wire) {
        return Points.every("n-" + wire, wire, Duration.ZERO);
    }

    private static List<PointDefinition> twoWithRowsBetween(int gap) {
        List<PointDefinition> rows = new ArrayList<>(List.of(point(0), point(gap + 1)));
        IntStream.rangeClosed(1, gap).forEach(wire -> rows.add(notPolled(wire)));
        return rows;
    }

    /** Ten registers cost as much as a transaction: then the fewer registers are read. */
    @ParameterizedTest
    @CsvSource({"9, 0, 0+11", "10, 0, 0+1 11+1", "11, 0, 0+1 12+1", "18, 11, 0+20", "19, 11, 0+1 20+1"})
    void aGapIsCrossedWhileThatCostsLessThanATransaction(int gap, int turnaround, String reads) {
        assertThat(shape(plan(rules(125), Duration.ofMillis(turnaround), twoWithRowsBetween(gap))))
                .isEqualTo(reads);
    }

    @Test
    void anAddressThatIsInNoRowIsNotCrossed() {
        assertThat(shape(rules(125), point(0), point(2))).isEqualTo("0+1 2+1");
        assertThat(shape(rules(125), point(0), notPolled(1), point(2))).isEqualTo("0+3");
    }

    @Test
    void whatIsReservedOrClearedIsNotCrossed() {
        AddressRange reserved = AddressRange.of(RegisterTable.HOLDING_REGISTER, 1, 1);
        assertThat(shape(rules(125, reserved), point(0), notPolled(1), point(2)))
                .isEqualTo("0+1 2+1");
        PointDefinition latch = Points.together("latch", 1, Consistency.ONCE);
        assertThat(shape(rules(125), point(0), latch, point(2))).isEqualTo("0+1 1+1 2+1");
        // Not even where another row names the address without saying so.
        assertThat(shape(rules(125), point(0), latch, notPolled(1), point(2))).isEqualTo("0+1 1+1 2+1");
    }

    @Test
    void theLimitOfARangeHoldsForEveryReadThatReachesIt() {
        ReadRules rules = new ReadRules(
                false,
                new ReadLimits(
                        4, List.of(new ReadLimits.InRange(new AddressRange(RegisterTable.HOLDING_REGISTER, 4, 5), 2))),
                Duration.ZERO,
                List.of());
        PointDefinition[] rows =
                IntStream.range(0, 10).mapToObj(CheapestPlanTest::point).toArray(PointDefinition[]::new);
        assertThat(shape(rules, rows)).isEqualTo("0+4 4+2 6+4");
    }

    /** Of plans that are alike the one whose last read begins lowest. */
    @Test
    void whatIsLeftOverIsReadFirst() {
        PointDefinition[] rows =
                IntStream.range(0, 7).mapToObj(CheapestPlanTest::point).toArray(PointDefinition[]::new);
        assertThat(shape(rules(3), rows)).isEqualTo("0+1 1+3 4+3");
    }

    @Test
    void whatMustBeReadInItsOwnWayHasItsOwnReads() {
        PointDefinition verified = Points.together("verified", 1, new Consistency(true, OptionalInt.empty()));
        PointDefinition apart = Points.limited(
                new PointFormat.Whole(32, false, WordOrder.HIGH_WORD_FIRST),
                Scaling.NONE,
                States.NONE,
                Limits.NONE,
                new Consistency(false, OptionalInt.of(2)));
        LinePlan plan = plan(rules(125), Duration.ZERO, List.of(verified, apart, point(0), point(2), point(1)));
        assertThat(shape(plan)).isEqualTo("0+1/2+1 0+3 1+1");
        assertThat(plan.blocks()).extracting(ReadBlock::transactions).containsExactly(3, 1, 2);
    }

    @Test
    void aGroupStaysWholeAndSharesItsReadWithItsNeighbours() {
        PointDefinition low = Points.together("low", 1, Consistency.ONE_READ.inGroup(new Name("g")));
        PointDefinition high = Points.together("high", 3, Consistency.ONE_READ.inGroup(new Name("g")));
        assertThat(shape(rules(125), low, notPolled(2), high, point(0))).isEqualTo("0+4");
        assertThat(shape(rules(3), low, notPolled(2), high, point(0))).isEqualTo("0+1 1+3");
    }

    @Test
    void aGroupOfWhichAPointIsVerifiedIsReadTwiceAsAWhole() {
        PointDefinition low =
                Points.together("low", 1, new Consistency(true, OptionalInt.empty()).inGroup(new Name("g")));
        PointDefinition high = Points.together("high", 2, Consistency.ONE_READ.inGroup(new Name("g")));
        LinePlan plan = plan(rules(125), Duration.ZERO, List.of(low, high, point(0)));
        assertThat(shape(plan)).isEqualTo("0+1 1+2");
        assertThat(plan.blocks()).extracting(ReadBlock::twice).containsExactly(false, true);
    }

    @Test
    void tablesThatMirrorEachOtherAreReadTogether() {
        ReadRules mirrored = new ReadRules(true, ReadLimits.NONE, Duration.ZERO, List.of());
        PointDefinition input =
                Points.point("input", RegisterTable.INPUT_REGISTER, 1, PointFormat.UINT16, Scaling.NONE, States.NONE);
        PointDefinition holding = Points.uint16("holding", 0);
        assertThat(shape(mirrored, holding, input)).isEqualTo("0+2");
        assertThat(shape(rules(125), holding, input)).isEqualTo("0+1 1+1");
    }

    @Test
    void aPauseMakesTransactionsDearer() {
        ReadRules patient = new ReadRules(false, ReadLimits.NONE, Duration.ofMillis(25), List.of());
        assertThat(shape(plan(patient, Duration.ZERO, twoWithRowsBetween(25)))).isEqualTo("0+27");
        assertThat(shape(plan(rules(125), Duration.ZERO, twoWithRowsBetween(25))))
                .isEqualTo("0+1 26+1");
    }

    @Test
    void whatWasLearnedMakesAnotherPlanForTheSamePoints() {
        LinePlan before = plan(rules(125), Duration.ZERO, twoWithRowsBetween(15));
        assertThat(shape(before)).isEqualTo("0+1 16+1");
        LinePlan after = before.with(before.turnarounds().with(new Name("boiler-1"), Duration.ofMillis(20)));
        assertThat(shape(after)).isEqualTo("0+17");
        assertThat(after.turnarounds().of(after.blocks().get(0).controller())).isEqualTo(Duration.ofMillis(20));
        assertThat(shape(before)).isEqualTo("0+1 16+1");
        assertThat(shape(after.with(before.turnarounds()))).isEqualTo("0+1 16+1");
    }

    @Test
    void thePlanDoesNotHangOnTheOrderOfTheList() {
        List<PointDefinition> rows = new ArrayList<>(twoWithRowsBetween(9));
        rows.add(point(40));
        String forwards = shape(plan(rules(125), Duration.ZERO, rows));
        Collections.reverse(rows);
        assertThat(shape(plan(rules(125), Duration.ZERO, rows))).isEqualTo(forwards);
    }

    @Test
    void whatIsNotAllowedIsNamed() {
        assertThatThrownBy(() -> shape(rules(125, AddressRange.of(RegisterTable.HOLDING_REGISTER, 5, 1)), point(5)))
                .hasMessageContaining("boiler-1.p-5: holding-register wire 5 reaches into");
    }
}
