package burnerbridge.plan;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.model.Seed;
import burnerbridge.site.ControllerDefinition;
import burnerbridge.site.PointDefinition;
import burnerbridge.site.Points;
import burnerbridge.site.SitePoint;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;

/** Points of several intervals. */
class RidesTest {
    private static final Duration FAST = Duration.ofSeconds(1);
    private static final Duration SLOW = Duration.ofSeconds(10);
    private static final List<Duration> INTERVALS =
            List.of(Duration.ofMillis(500), FAST, Duration.ofSeconds(2), SLOW, Duration.ofHours(1));

    private static double rate(SeededMap map, List<ReadBlock> blocks) {
        return blocks.stream()
                .mapToDouble(
                        block -> Exhaustive.millis(map, block.requests().get(0).count())
                                / (block.every().toNanos() / 1e9))
                .sum();
    }

    private static LinePlan plan(SeededMap map, List<SitePoint> points) {
        return LinePlan.of(map.line, points, Turnarounds.all(map.turnaround));
    }

    /** A group counts by its fastest point. */
    private static double ofEachIntervalAlone(SeededMap map) {
        Map<Duration, List<Bundle>> classes = Bundle.of(map.points).stream()
                .collect(Collectors.groupingBy(Bundle::every, TreeMap::new, Collectors.toList()));
        return classes.values().stream()
                .mapToDouble(some -> rate(
                        map,
                        plan(
                                        map,
                                        some.stream()
                                                .flatMap(b -> b.points().stream())
                                                .toList())
                                .blocks()))
                .sum();
    }

    @Test
    void ridesAreNeverDearerThanTheOptimaOfAllIntervalsSideBySide() {
        long seed = Seed.value();
        int cheaper = 0;
        for (int i = 0; i < 6000; i++) {
            SeededMap map = new SeededMap(seed + i, 30, INTERVALS);
            LinePlan plan = plan(map, map.points);
            OptimumTest.requireSound(map, plan, seed + i);
            double apart = ofEachIntervalAlone(map);
            double together = rate(map, plan.blocks());
            assertThat(together).as("seed %d", seed + i).isLessThanOrEqualTo(apart * (1 + 1e-9) + 1e-4);
            cheaper += together < apart - 1e-3 ? 1 : 0;
        }
        assertThat(cheaper).as("seed %d", seed).isGreaterThan(1000);
    }

    /** How good the heuristic is beside every possible plan: as the page says. */
    @Test
    void ridesAreMostlyTheBestThatCanBe() throws IOException {
        int best = 0;
        double sum = 0;
        double worst = 0;
        int maps = 2000;
        int searched = 0;
        for (int i = 0; i < maps; i++) {
            SeededMap map = new SeededMap(1000 + i, 8, INTERVALS);
            if (map.points.isEmpty()) {
                continue;
            }
            searched++;
            double least = new Exhaustive(map).best();
            double over = rate(map, plan(map, map.points).blocks()) / least - 1;
            assertThat(over).as("map %d", i).isGreaterThan(-1e-6);
            best += over < 1e-6 ? 1 : 0;
            sum += over;
            worst = Math.max(worst, over);
        }
        String found = String.format(
                Locale.ROOT,
                "in %d of %d; %.2f %% dearer on average, %.1f %% at worst",
                best,
                searched,
                100 * sum / searched,
                100 * worst);
        assertThat(Files.readString(Path.of("..", "docs", "read-plan.md"))).contains(found);
    }

    private static List<ReadBlock> blocks(PointDefinition... points) {
        ControllerDefinition boiler = Points.controller(0, "boiler-1", 1, points);
        return LinePlan.of(Points.line(), Points.of(boiler), Turnarounds.ASSUMED)
                .blocks();
    }

    private static String shape(List<ReadBlock> blocks) {
        return blocks.stream()
                .map(block -> block.requests().get(0).first() + "+"
                        + block.requests().get(0).count() + " every "
                        + block.every().toSeconds())
                .collect(Collectors.joining(", "));
    }

    @Test
    void aSlowPointWithinAFastReadRidesForNothing() {
        assertThat(shape(blocks(Points.every("a", 0, FAST), Points.every("b", 1, SLOW), Points.every("c", 2, FAST))))
                .isEqualTo("0+3 every 1");
    }

    @Test
    void aSlowPointBesideAFastReadRidesWhereARegisterCostsLessThanARead() {
        assertThat(shape(blocks(Points.every("a", 0, FAST), Points.every("b", 1, SLOW))))
                .isEqualTo("0+2 every 1");
    }

    @Test
    void aSlowPointOutOfReachHasItsOwnRead() {
        assertThat(shape(blocks(Points.every("a", 0, FAST), Points.every("b", 2, SLOW))))
                .isEqualTo("0+1 every 1, 2+1 every 10");
    }
}
