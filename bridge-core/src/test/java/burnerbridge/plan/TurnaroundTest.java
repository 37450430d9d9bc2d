package burnerbridge.plan;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.line.ReadRequest;
import burnerbridge.model.Seed;
import burnerbridge.site.LineDefinition;
import burnerbridge.site.Name;
import burnerbridge.site.RegisterTable;
import burnerbridge.site.UnitId;
import java.time.Duration;
import java.util.Arrays;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class TurnaroundTest {
    private final CostModel model = CostModel.of(new LineDefinition(
            new Name("annex"),
            new LineDefinition.RtuOverTcp("127.0.0.1", 7001, 19_200),
            Duration.ofSeconds(1),
            Duration.ofSeconds(3)));
    private final Turnaround turnaround = new Turnaround(model);

    private void answered(int registers, double turnaroundMillis) {
        ReadRequest request = new ReadRequest(new UnitId(1), RegisterTable.HOLDING_REGISTER, 0, registers);
        // By hand: 13 + 2 N + 3.5 characters of 11 bits, from the request to the reply's end.
        double wire = (16.5 + 2 * registers) * 11_000 / 19_200;
        turnaround.answered(request, Duration.ofNanos(Math.round((wire + turnaroundMillis) * 1e6)));
    }

    private double learned() {
        return turnaround.learned().orElseThrow().toNanos() / 1e6;
    }

    @Test
    void nothingIsKnownBeforeTheNinthReply() {
        for (int i = 1; i < Turnaround.LEAST; i++) {
            answered(i, 8);
        }
        assertThat(turnaround.learned()).isEmpty();
        assertThat(turnaround.offFrom(Duration.ofMillis(5))).isEmpty();
        answered(100, 8);
        assertThat(learned()).isBetween(7.999, 8.001);
    }

    /** Whatever the reads are, and though up to 14 of the last 31 are nonsense. */
    @Test
    void aMinorityOfNonsenseMovesItNoFurtherThanTheOthersReach() {
        long seed = Seed.value();
        Random random = new Random(seed);
        for (int run = 0; run < 300; run++) {
            double usual = random.nextDouble() * 40;
            Turnaround fresh = new Turnaround(model);
            int[] nonsense = random.ints(0, Turnaround.WINDOW)
                    .distinct()
                    .limit(14)
                    .sorted()
                    .toArray();
            for (int i = 0; i < 4 * Turnaround.WINDOW; i++) {
                int place = i % Turnaround.WINDOW;
                boolean held = Arrays.binarySearch(nonsense, place) >= 0;
                double millis = held ? random.nextDouble() * 2000 - 500 : usual + random.nextDouble() - 0.5;
                int registers = 1 + random.nextInt(125);
                ReadRequest request = new ReadRequest(new UnitId(1), RegisterTable.HOLDING_REGISTER, 0, registers);
                double wire = (16.5 + 2 * registers) * 11_000 / 19_200;
                fresh.answered(request, Duration.ofNanos(Math.round((wire + millis) * 1e6)));
            }
            assertThat(fresh.learned().orElseThrow().toNanos() / 1e6)
                    .as("seed %d, run %d", seed, run)
                    .isBetween(Math.max(0, usual - 0.51), usual + 0.51);
        }
    }

    @Test
    void aControllerThatChangedIsKnownAnewAfterHalfAWindow() {
        for (int i = 0; i < 100; i++) {
            answered(10, 5);
        }
        for (int i = 0; i <= Turnaround.WINDOW / 2; i++) {
            answered(10, 20);
        }
        assertThat(learned()).isBetween(19.999, 20.001);
    }

    @Test
    void repliesQuickerThanTheWireMakeNoNegativeTurnaround() {
        for (int i = 0; i < Turnaround.WINDOW; i++) {
            answered(10, -3);
        }
        assertThat(learned()).isZero();
    }

    /** A plan is made anew for more than a tenth, and not for what a timer is off. */
    @ParameterizedTest
    @CsvSource({
        "20, 22.1, true",
        "20, 21.9, false",
        "20, 17.9, true",
        "20, 18.1, false",
        "1, 1.4, false",
        "0, 0.6, true"
    })
    void moreThanATenthOffIsWorthANewPlan(int planned, double measured, boolean off) {
        for (int i = 0; i < Turnaround.LEAST; i++) {
            answered(10, measured);
        }
        assertThat(turnaround.offFrom(Duration.ofMillis(planned)).isPresent()).isEqualTo(off);
    }

    /** Of 31 replies the seventh in eight decides; the rest may be as it was. */
    @ParameterizedTest
    @CsvSource({"3, true", "4, false"})
    void aFewRepliesThatAreAsPlannedKeepNoPlanFromChanging(int asPlanned, boolean off) {
        for (int i = 0; i < Turnaround.WINDOW; i++) {
            answered(10, i < asPlanned ? 5 : 20);
        }
        assertThat(turnaround.offFrom(Duration.ofMillis(5)).isPresent()).isEqualTo(off);
        assertThat(turnaround.offFrom(Duration.ofMillis(20))).isEmpty();
    }
}
