package burnerbridge.plan;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.site.Consistency;
import burnerbridge.site.ControllerDefinition;
import burnerbridge.site.Limits;
import burnerbridge.site.Name;
import burnerbridge.site.PointDefinition;
import burnerbridge.site.PointFormat;
import burnerbridge.site.Points;
import burnerbridge.site.RegisterTable;
import burnerbridge.site.Scaling;
import burnerbridge.site.States;
import burnerbridge.site.WordOrder;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

class SplitTest {

    private static ReadBlock block(PointDefinition... points) {
        ControllerDefinition boiler = Points.controller(0, "boiler-1", 1, points);
        List<ReadBlock> blocks = LinePlan.of(Points.line(), Points.of(boiler), Turnarounds.ASSUMED)
                .blocks();
        assertThat(blocks).hasSize(1);
        return blocks.get(0);
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

    private static PointDefinition bit(String name, int wire, int index) {
        return Points.point(
                name,
                RegisterTable.HOLDING_REGISTER,
                wire,
                new PointFormat.RegisterBit(index, index),
                Scaling.NONE,
                States.NONE);
    }

    private static String shape(ReadBlock block) {
        return block.requests().get(0).first() + "+" + block.requests().get(0).count();
    }

    private static String shape(Optional<ReadBlock.Halves> halves) {
        return halves.map(two -> shape(two.lower()) + " " + shape(two.upper())).orElse("none");
    }

    @Test
    void theHalvesAreAsAlikeAsTheyCanBe() {
        assertThat(shape(block(
                                Points.uint16("a", 0),
                                Points.uint16("b", 1),
                                Points.uint16("c", 2),
                                Points.uint16("d", 3))
                        .split()))
                .isEqualTo("0+2 2+2");
        assertThat(shape(
                        block(wide("a", 0), wide("b", 2), Points.uint16("c", 4)).split()))
                .isEqualTo("0+2 2+3");
    }

    /** Only the part that asks for it is still read as often. */
    @Test
    void eachHalfKeepsTheIntervalOfItsPoints() {
        ReadBlock.Halves halves = block(
                        Points.every("a", 0, Duration.ofSeconds(1)), Points.every("b", 1, Duration.ofSeconds(10)))
                .split()
                .orElseThrow();
        assertThat(halves.lower().every()).isEqualTo(Duration.ofSeconds(1));
        assertThat(halves.upper().every()).isEqualTo(Duration.ofSeconds(10));
    }

    private static List<ReadBlock> whole() {
        Consistency group = Consistency.ONE_READ.inGroup(new Name("g"));
        return List.of(
                block(Points.uint16("a", 0)),
                block(wide("a", 0)),
                block(Points.together("a", 0, group), Points.together("b", 1, group)),
                block(bit("a", 7, 0), bit("b", 7, 1)),
                block(Points.together("a", 0, Consistency.ONCE)),
                block(Points.together("a", 0, new Consistency(true, OptionalInt.empty()))),
                block(Points.limited(
                        new PointFormat.Whole(32, false, WordOrder.HIGH_WORD_FIRST),
                        Scaling.NONE,
                        States.NONE,
                        Limits.NONE,
                        new Consistency(false, OptionalInt.of(187)))));
    }

    @ParameterizedTest
    @MethodSource("whole")
    void aPointAndAGroupAreNotCut(ReadBlock block) {
        assertThat(block.split()).isEmpty();
    }

    @Test
    void pointsThatOverlapAreCutApartAndNotThrough() {
        assertThat(shape(block(wide("a", 0), wide("b", 1)).split())).isEqualTo("0+2 1+2");
    }

    @Test
    void splittingOnAndOnEndsWithEveryPointReadAndNothingCut() {
        long seed = new Random().nextLong();
        for (int i = 0; i < 500; i++) {
            SeededMap map = new SeededMap(seed + i, 30, List.of(Duration.ofSeconds(1), Duration.ofSeconds(60)));
            List<ReadBlock> smallest = new ArrayList<>();
            LinePlan plan = LinePlan.of(map.line, map.points, Turnarounds.ASSUMED);
            plan.blocks().forEach(block -> splitOn(block, smallest));
            assertThat(smallest.stream().flatMap(block -> block.points().stream()))
                    .as("seed %d", seed + i)
                    .containsExactlyInAnyOrderElementsOf(map.points);
            for (Bundle bundle : Bundle.of(map.points)) {
                assertThat(smallest)
                        .as("seed %d", seed + i)
                        .anyMatch(block -> block.points().containsAll(bundle.points())
                                && Bundle.of(block.points()).stream()
                                                .map(Piece::of)
                                                .map(piece -> piece.first() + "+" + piece.last())
                                                .distinct()
                                                .count()
                                        == 1);
            }
        }
    }

    private static void splitOn(ReadBlock block, List<ReadBlock> smallest) {
        Optional<ReadBlock.Halves> halves = block.split();
        if (halves.isEmpty()) {
            smallest.add(block);
            return;
        }
        splitOn(halves.get().lower(), smallest);
        splitOn(halves.get().upper(), smallest);
    }
}
