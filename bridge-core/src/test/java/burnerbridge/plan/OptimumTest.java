package burnerbridge.plan;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import burnerbridge.model.Seed;
import burnerbridge.site.SitePoint;
import java.time.Duration;
import java.util.List;
import org.junit.jupiter.api.Test;

/** Against every possible plan of small maps. */
class OptimumTest {
    private static final int MAPS = 4000;

    private static LinePlan plan(SeededMap map) {
        return LinePlan.of(map.line, map.points, Turnarounds.all(map.turnaround));
    }

    private static double rate(SeededMap map, LinePlan plan) {
        return plan.blocks().stream()
                .mapToDouble(
                        block -> Exhaustive.millis(map, block.requests().get(0).count())
                                / (block.every().toNanos() / 1e9))
                .sum();
    }

    @Test
    void noOtherReadsOfOneIntervalAreCheaper() {
        long seed = Seed.value();
        int merged = 0;
        for (int i = 0; i < MAPS; i++) {
            SeededMap map = new SeededMap(seed + i, 8, List.of(Duration.ofSeconds(2)));
            LinePlan plan = plan(map);
            requireSound(map, plan, seed + i);
            double best = new Exhaustive(map).best();
            assertThat(rate(map, plan)).as("seed %d", seed + i).isCloseTo(best, within(1e-4));
            merged += plan.blocks().size() < map.points.size() ? 1 : 0;
        }
        // The maps are worth a search: reads could be joined in most, and not all of them in all.
        assertThat(merged).as("seed %d", seed).isBetween(MAPS / 4, MAPS - 1);
    }

    /** Every point in one read, each read allowed, none slower than one of its points. */
    static void requireSound(SeededMap map, LinePlan plan, long seed) {
        assertThat(plan.blocks().stream().flatMap(block -> block.points().stream()))
                .as("seed %d", seed)
                .containsExactlyInAnyOrderElementsOf(map.points);
        for (ReadBlock block : plan.blocks()) {
            int first = block.requests().get(0).first();
            int count = block.requests().get(0).count();
            for (int address = first; address < first + count; address++) {
                assertThat(map.isReadable(address))
                        .as("seed %d, %s", seed, block.requests())
                        .isTrue();
                assertThat(count).as("seed %d, %s", seed, block.requests()).isLessThanOrEqualTo(map.limitOf(address));
            }
            for (SitePoint point : block.points()) {
                assertThat(block.every()).isLessThanOrEqualTo(point.definition().every());
            }
        }
    }
}
