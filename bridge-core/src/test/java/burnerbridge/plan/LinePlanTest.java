package burnerbridge.plan;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import burnerbridge.line.ReadRequest;
import burnerbridge.line.ReadTerms;
import burnerbridge.site.AddressRange;
import burnerbridge.site.Consistency;
import burnerbridge.site.ControllerDefinition;
import burnerbridge.site.ControllerType;
import burnerbridge.site.Limits;
import burnerbridge.site.LineDefinition;
import burnerbridge.site.Name;
import burnerbridge.site.PointDefinition;
import burnerbridge.site.PointFormat;
import burnerbridge.site.Points;
import burnerbridge.site.ReadLimits;
import burnerbridge.site.ReadRules;
import burnerbridge.site.RegisterTable;
import burnerbridge.site.Scaling;
import burnerbridge.site.SitePoint;
import burnerbridge.site.States;
import burnerbridge.site.UnitId;
import burnerbridge.site.WordOrder;
import java.time.Duration;
import java.util.List;
import java.util.OptionalInt;
import org.junit.jupiter.api.Test;

class LinePlanTest {

    @Test
    void bitsOfOneRegisterShareItsRead() {
        ControllerDefinition boiler = Points.controller(
                0,
                "boiler-1",
                1,
                Points.point(
                        "flame",
                        RegisterTable.HOLDING_REGISTER,
                        4,
                        new PointFormat.RegisterBit(0, 0),
                        Scaling.NONE,
                        States.NONE),
                Points.point(
                        "lockout",
                        RegisterTable.HOLDING_REGISTER,
                        4,
                        new PointFormat.RegisterBit(1, 1),
                        Scaling.NONE,
                        States.NONE),
                Points.uint16("starts", 6));
        List<ReadBlock> blocks =
                LinePlan.all(List.of(Points.line()), Points.of(boiler)).get(0).blocks();
        assertThat(blocks).hasSize(2);
        assertThat(blocks.get(0).points()).hasSize(2);
        assertThat(blocks.get(1).requests())
                .containsExactly(new ReadRequest(new UnitId(1), RegisterTable.HOLDING_REGISTER, 6, 1));
    }

    /** As a list does that shows one value as a number and as its digits. */
    @Test
    void pointsWithTheSameTwoAddressesShareTheirReads() {
        Consistency apart = new Consistency(false, OptionalInt.of(187));
        ControllerDefinition boiler = Points.controller(
                0,
                "boiler-1",
                1,
                Points.limited(
                        new PointFormat.Whole(32, false, WordOrder.HIGH_WORD_FIRST),
                        Scaling.NONE,
                        States.NONE,
                        Limits.NONE,
                        apart),
                Points.limited(
                        new PointFormat.Bcd(2, WordOrder.HIGH_WORD_FIRST),
                        Scaling.NONE,
                        States.NONE,
                        Limits.NONE,
                        apart));
        List<ReadBlock> blocks =
                LinePlan.all(List.of(Points.line()), Points.of(boiler)).get(0).blocks();
        assertThat(blocks).singleElement().satisfies(block -> {
            assertThat(block.points()).hasSize(2);
            assertThat(block.requests()).extracting(ReadRequest::first).containsExactly(0, 187);
        });
    }

    @Test
    void aBlockHoldsOnlyPointsThatItReads() {
        ControllerDefinition boiler = Points.controller(0, "boiler-1", 1, Points.uint16("starts", 5));
        List<SitePoint> points = Points.of(boiler);
        ReadRequest other = new ReadRequest(new UnitId(1), RegisterTable.HOLDING_REGISTER, 6, 1);
        assertThatThrownBy(() -> new ReadBlock(boiler, List.of(other), false, Duration.ofSeconds(2), points))
                .hasMessageContaining("boiler-1.starts does not lie within");
    }

    private static List<ReadBlock> blocks(ReadRules rules, PointDefinition... points) {
        ControllerDefinition one = Points.controller(0, "boiler-1", 1, points);
        ControllerDefinition boiler = new ControllerDefinition(
                0,
                one.name(),
                one.line(),
                one.unit(),
                new ControllerType(one.type().name(), List.of(points), rules),
                1000,
                true,
                0);
        return LinePlan.all(List.of(Points.line()), Points.of(boiler)).get(0).blocks();
    }

    private static PointDefinition input(String name, int wire) {
        return Points.point(name, RegisterTable.INPUT_REGISTER, wire, PointFormat.UINT16, Scaling.NONE, States.NONE);
    }

    private static ReadRules rules(boolean mirrored, int most, AddressRange... reserved) {
        return new ReadRules(mirrored, new ReadLimits(most, List.of()), Duration.ofMillis(20), List.of(reserved));
    }

    @Test
    void tablesThatAreOneShareTheirReads() {
        assertThat(blocks(rules(true, 125), Points.uint16("a", 5), input("b", 5)))
                .singleElement()
                .satisfies(block -> {
                    assertThat(block.points()).hasSize(2);
                    assertThat(block.function()).isEqualTo(3);
                });
        assertThat(blocks(rules(false, 125), Points.uint16("a", 5), input("b", 5)))
                .extracting(ReadBlock::function)
                .containsExactly(3, 4);
    }

    @Test
    void everyRequestCarriesWhatItsControllerAsksFor() {
        List<ReadBlock> blocks =
                blocks(rules(false, 125), Points.uint16("a", 5), Points.together("b", 6, Consistency.ONCE));
        assertThat(blocks.get(0).requests().get(0).terms())
                .isEqualTo(new ReadTerms(true, false, Duration.ofMillis(20)));
        assertThat(blocks.get(1).requests().get(0).terms()).isEqualTo(new ReadTerms(true, true, Duration.ofMillis(20)));
    }

    @Test
    void noReadIsPlannedThatItsControllerDoesNotAllow() {
        PointDefinition first = Points.together("a", 5, Consistency.ONE_READ.inGroup(new Name("g")));
        PointDefinition last = Points.together("b", 8, Consistency.ONE_READ.inGroup(new Name("g")));
        assertThat(blocks(rules(false, 4), first, last)).hasSize(1);
        assertThatThrownBy(() -> blocks(rules(false, 3), first, last))
                .hasMessageContaining("boiler-1.a: holding-register wire 5..8 takes 4 addresses, and one read takes 3");
        assertThatThrownBy(() ->
                        blocks(rules(false, 125, new AddressRange(RegisterTable.HOLDING_REGISTER, 7, 7)), first, last))
                .hasMessageContaining("which is reserved");
    }

    @Test
    void whatAReadClearsIsNeverReadTwiceForOneValue() {
        ControllerDefinition boiler = Points.controller(0, "boiler-1", 1, Points.together("a", 5, Consistency.ONCE));
        ReadRequest once = new ReadRequest(
                new UnitId(1), RegisterTable.HOLDING_REGISTER, 5, 1, new ReadTerms(false, true, Duration.ZERO));
        assertThatThrownBy(() -> new ReadBlock(boiler, List.of(once), true, Duration.ofSeconds(2), Points.of(boiler)))
                .hasMessageContaining("is read once");
    }

    /** At 9600 baud two registers eight apart are dearer as two reads than as one of ten. */
    @Test
    void aGapIsCrossedWhereTheTypeSaysThatItCanBeRead() {
        AddressRange between = AddressRange.of(RegisterTable.HOLDING_REGISTER, 1, 8);
        assertThat(lengths(List.of())).containsExactly(1, 1);
        assertThat(lengths(List.of(between))).containsExactly(10);
        assertThat(lengths(List.of(AddressRange.of(RegisterTable.HOLDING_REGISTER, 1, 7))))
                .containsExactly(1, 1);
        assertThat(lengths(List.of(AddressRange.of(RegisterTable.INPUT_REGISTER, 1, 8))))
                .containsExactly(1, 1);
    }

    private static List<Integer> lengths(List<AddressRange> readable) {
        ControllerType type = new ControllerType(
                new Name("type"),
                List.of(Points.uint16("a", 0), Points.uint16("b", 9)),
                new ReadRules(false, ReadLimits.NONE, Duration.ZERO, List.of(), readable));
        LineDefinition line = new LineDefinition(
                new Name("annex"),
                new LineDefinition.RtuOverTcp("127.0.0.1", 7001, 9600),
                Duration.ofSeconds(1),
                Duration.ofSeconds(3));
        ControllerDefinition boiler =
                new ControllerDefinition(0, new Name("boiler-1"), line.name(), new UnitId(1), type, 0);
        return LinePlan.all(List.of(line), Points.of(boiler)).get(0).blocks().stream()
                .map(block -> block.requests().get(0).count())
                .toList();
    }
}
