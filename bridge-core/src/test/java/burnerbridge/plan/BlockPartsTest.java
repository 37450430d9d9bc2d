package burnerbridge.plan;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.line.ReadRequest;
import burnerbridge.line.ReadTerms;
import burnerbridge.site.Consistency;
import burnerbridge.site.ControllerDefinition;
import burnerbridge.site.Name;
import burnerbridge.site.PointDefinition;
import burnerbridge.site.PointFormat;
import burnerbridge.site.Points;
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

class BlockPartsTest {
    private static final ReadTerms TERMS = new ReadTerms(true, false, Duration.ofMillis(20));
    private static final Consistency GROUP = Consistency.ONE_READ.inGroup(new Name("g"));

    private static ReadBlock block(int first, int count, PointDefinition... points) {
        ControllerDefinition boiler = Points.controller(0, "boiler-1", 1, points);
        return new ReadBlock(
                boiler,
                List.of(new ReadRequest(new UnitId(1), RegisterTable.HOLDING_REGISTER, first, count, TERMS)),
                false,
                Duration.ofSeconds(2),
                Points.of(boiler));
    }

    private static PointDefinition wide(String name, int wire) {
        return Points.point(
                name,
                RegisterTable.HOLDING_REGISTER,
                wire,
                new PointFormat.Whole(32, false, WordOrder.HIGH_WORD_FIRST),
                Scaling.NONE,
                States.NONE);
    }

    private static PointDefinition bit(String name, int wire, int bit) {
        return Points.point(
                name,
                RegisterTable.HOLDING_REGISTER,
                wire,
                new PointFormat.RegisterBit(bit, bit),
                Scaling.NONE,
                States.NONE);
    }

    private static List<String> names(ReadBlock block) {
        return block.points().stream()
                .map(point -> point.definition().name().text())
                .toList();
    }

    private static String registers(ReadBlock block) {
        return block.requests().get(0).first() + "+" + block.requests().get(0).count();
    }

    @Test
    void eachHalfTakesItsOwnPointsAndNothingMore() {
        List<ReadBlock> halves = block(
                        0, 40, wide("a", 2), Points.uint16("b", 7), Points.uint16("c", 20), wide("d", 30))
                .halves();
        assertThat(halves).extracting(BlockPartsTest::registers).containsExactly("2+6", "20+12");
        assertThat(halves).flatExtracting(BlockPartsTest::names).containsExactly("a", "b", "c", "d");
        assertThat(halves).allMatch(half -> half.requests().get(0).terms().equals(TERMS));
    }

    @Test
    void whatSharesAddressesStaysTogether() {
        List<ReadBlock> halves = block(0, 4, bit("x", 1, 0), wide("over", 1), bit("y", 2, 3), Points.uint16("b", 3))
                .halves();
        assertThat(halves).extracting(BlockPartsTest::registers).containsExactly("1+2", "3+1");
        assertThat(names(halves.get(0))).containsExactly("x", "over", "y");
    }

    @Test
    void aGroupStaysTogetherWithWhatLiesWithinIt() {
        ReadBlock block = block(
                0,
                10,
                Points.together("g1", 0, GROUP),
                Points.uint16("within", 2),
                Points.together("g2", 4, GROUP),
                Points.uint16("b", 6));
        assertThat(block.halves()).extracting(BlockPartsTest::registers).containsExactly("0+5", "6+1");
        assertThat(block.halves().get(0).halves()).isEmpty();
        SitePoint within = block.point(new Name("within")).orElseThrow();
        assertThat(block.around(List.of(within)))
                .extracting(BlockPartsTest::registers)
                .containsExactly("6+1");
    }

    @Test
    void aroundSomePointsAreTheRunsBetweenThem() {
        ReadBlock block = block(
                0,
                10,
                Points.uint16("a", 0),
                Points.uint16("b", 1),
                Points.uint16("c", 2),
                Points.uint16("d", 5),
                Points.uint16("e", 9));
        SitePoint c = block.point(new Name("c")).orElseThrow();
        SitePoint e = block.point(new Name("e")).orElseThrow();
        assertThat(block.around(List.of(c, e)))
                .extracting(BlockPartsTest::registers)
                .containsExactly("0+2", "5+1");
        assertThat(block.around(List.of()))
                .singleElement()
                .satisfies(whole -> assertThat(registers(whole)).isEqualTo("0+10"));
        assertThat(block.around(block.points())).isEmpty();
    }

    @Test
    void onePointAndWordsThatAreApartAreNotDivided() {
        assertThat(block(0, 2, wide("a", 0)).halves()).isEmpty();
        PointDefinition apart = Points.together("apart", 120, new Consistency(false, OptionalInt.of(187)));
        List<ReadBlock> blocks = LinePlan.all(
                        List.of(Points.line()), Points.of(Points.controller(0, "boiler-1", 1, apart)))
                .get(0)
                .blocks();
        assertThat(blocks).singleElement().satisfies(block -> {
            assertThat(block.halves()).isEmpty();
            assertThat(block.around(List.of())).isEmpty();
        });
    }
}
