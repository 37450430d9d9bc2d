package burnerbridge.plan;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.model.Seed;
import burnerbridge.site.ControllerDefinition;
import burnerbridge.site.LineDefinition;
import burnerbridge.site.Name;
import burnerbridge.site.PointDefinition;
import burnerbridge.site.Points;
import java.time.Duration;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Random;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;

/** At 9600 baud without a turnaround, by hand: 100 registers take 252.1 ms, one takes 25.2 ms. */
class FeasibilityTest {
    private static final Duration SECOND = Duration.ofSeconds(1);

    private static LinePlan plan(ControllerDefinition... controllers) {
        LineDefinition line = new LineDefinition(
                new Name("annex"), new LineDefinition.RtuOverTcp("127.0.0.1", 7001, 9600), SECOND, SECOND);
        return LinePlan.of(line, Points.of(controllers), Turnarounds.all(Duration.ZERO));
    }

    private static ControllerDefinition controller(int ordinal, int registers, Duration every) {
        PointDefinition[] points = IntStream.range(0, registers)
                .mapToObj(wire -> Points.every("p-" + wire, wire, every))
                .toArray(PointDefinition[]::new);
        return Points.controller(ordinal, "boiler-" + (ordinal + 1), ordinal + 1, points);
    }

    private static List<Late> late(LinePlan plan) {
        return Prediction.of(plan).late();
    }

    @Test
    void aReadLongerThanItsIntervalIsAlwaysLate() {
        assertThat(late(plan(controller(0, 100, Duration.ofMillis(200)))))
                .singleElement()
                .satisfies(late -> {
                    assertThat(late.why()).isEqualTo(Late.Why.TOO_LONG);
                    assertThat(late.every().toMillis()).isEqualTo(252);
                });
    }

    @Test
    void onALineThatIsWantedTooMuchAllAreLate() {
        ControllerDefinition[] controllers =
                IntStream.range(0, 5).mapToObj(i -> controller(i, 100, SECOND)).toArray(ControllerDefinition[]::new);
        assertThat(late(plan(controllers))).hasSize(5).allSatisfy(late -> {
            assertThat(late.why()).isEqualTo(Late.Why.LINE_OVERLOADED);
            assertThat(late.every().toMillis()).isEqualTo(1260);
        });
        assertThat(late(plan(Arrays.copyOf(controllers, 3)))).isEmpty();
    }

    @Test
    void aQuickReadIsHeldUpByALongOneThatHasTime() {
        assertThat(late(plan(controller(0, 1, Duration.ofMillis(250)), controller(1, 100, Duration.ofSeconds(10)))))
                .singleElement()
                .satisfies(late -> {
                    assertThat(late.why()).isEqualTo(Late.Why.HELD_UP);
                    assertThat(late.block().controller().ordinal()).isZero();
                });
        assertThat(late(plan(controller(0, 1, Duration.ofMillis(300)), controller(1, 100, Duration.ofSeconds(10)))))
                .isEmpty();
    }

    /** Where nothing is said to be late, no phases make it so; where the line is overloaded, some read is late. */
    @Test
    void whatIsForetoldHoldsInARun() {
        long seed = Seed.value();
        Random random = new Random(seed);
        int inTime = 0;
        int overloaded = 0;
        for (int i = 0; i < 400; i++) {
            ControllerDefinition[] controllers = IntStream.range(0, 2 + random.nextInt(5))
                    .mapToObj(c ->
                            controller(c, 1 + random.nextInt(100), Duration.ofMillis(200 + 100L * random.nextInt(20))))
                    .toArray(ControllerDefinition[]::new);
            LinePlan plan = plan(controllers);
            List<Late> late = late(plan);
            if (late.isEmpty()) {
                inTime++;
                assertThat(missed(plan, Duration.ofMinutes(10), random))
                        .as("seed %d, run %d", seed, i)
                        .isFalse();
            } else if (late.stream().anyMatch(l -> l.why() == Late.Why.LINE_OVERLOADED) && share(plan) > 1.001) {
                overloaded++;
                assertThat(missed(plan, untilOverloadShows(plan), random))
                        .as("seed %d, run %d", seed, i)
                        .isTrue();
            }
        }
        assertThat(inTime).isPositive();
        assertThat(overloaded).isPositive();
    }

    /** Of its time for which a line is wanted. */
    private static double share(LinePlan plan) {
        return Prediction.of(plan).line().share();
    }

    /**
     * How long a line that is wanted too much can hide it: in a time T a read ends at least T / every - 2 intervals,
     * since its first and its last need not lie in it whole.
     */
    private static Duration untilOverloadShows(LinePlan plan) {
        double nanos = plan.blocks().stream()
                .mapToDouble(
                        block -> 2.0 * plan.model().of(block, Duration.ZERO).toNanos())
                .sum();
        return Duration.ofNanos((long) (nanos / (share(plan) - 1))).plusSeconds(10);
    }

    /** Whether a read misses its interval within that time, the one whose interval ends first going first. */
    private static boolean missed(LinePlan plan, Duration within, Random random) {
        List<ReadBlock> blocks = plan.blocks();
        List<Long> wanted = new ArrayList<>();
        blocks.forEach(
                block -> wanted.add((long) (random.nextDouble() * block.every().toNanos())));
        long now = 0;
        while (now < within.toNanos()) {
            int next = -1;
            for (int i = 0; i < wanted.size(); i++) {
                boolean waits = wanted.get(i) <= now;
                if (waits && (next < 0 || end(blocks, wanted, i) < end(blocks, wanted, next))) {
                    next = i;
                }
            }
            if (next < 0) {
                now = wanted.stream().mapToLong(Long::longValue).min().orElseThrow();
                continue;
            }
            now += plan.model().of(blocks.get(next), Duration.ZERO).toNanos();
            if (now > end(blocks, wanted, next)) {
                return true;
            }
            wanted.set(next, end(blocks, wanted, next));
        }
        return false;
    }

    private static long end(List<ReadBlock> blocks, List<Long> wanted, int i) {
        return wanted.get(i) + blocks.get(i).every().toNanos();
    }
}
