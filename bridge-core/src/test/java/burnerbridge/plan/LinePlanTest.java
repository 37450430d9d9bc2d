package burnerbridge.plan;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import burnerbridge.line.ReadRequest;
import burnerbridge.site.Consistency;
import burnerbridge.site.ControllerDefinition;
import burnerbridge.site.Limits;
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
                Points.uint16("starts", 5));
        List<ReadBlock> blocks =
                LinePlan.all(List.of(Points.line()), Points.of(boiler)).get(0).blocks();
        assertThat(blocks).hasSize(2);
        assertThat(blocks.get(0).points()).hasSize(2);
        assertThat(blocks.get(1).requests())
                .containsExactly(new ReadRequest(new UnitId(1), RegisterTable.HOLDING_REGISTER, 5, 1));
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
}
