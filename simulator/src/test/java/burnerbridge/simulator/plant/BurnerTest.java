package burnerbridge.simulator.plant;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.function.Consumer;
import java.util.function.Predicate;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;

class BurnerTest {
    private static final long SEED = 5;
    private static final int STEPS_A_SECOND = 10;
    private static final int TEN_MINUTES = 600 * STEPS_A_SECOND;

    private final Burner burner = new Burner(BurnerSettings.brisk(), SEED);

    @Test
    void twoBurnersOfOneSeedRunAlike() {
        Burner twin = new Burner(BurnerSettings.brisk(), SEED);

        for (int i = 0; i < TEN_MINUTES; i++) {
            burner.step();
            twin.step();
            assertThat(twin.state()).isEqualTo(burner.state());
        }
    }

    @Test
    void anotherSeedRunsOtherwise() {
        Burner other = new Burner(BurnerSettings.brisk(), SEED + 1);

        assertThat(run(other, TEN_MINUTES)).isNotEqualTo(run(burner, TEN_MINUTES));
    }

    @Test
    void theSequenceGoesThroughItsPhasesInOrder() {
        List<Phase> seen = run(burner, TEN_MINUTES).stream()
                .map(BurnerState::phase)
                .collect(ArrayList::new, BurnerTest::addChanged, List::addAll);

        assertThat(seen)
                .startsWith(
                        Phase.STANDBY,
                        Phase.PRE_PURGE,
                        Phase.PILOT_TRIAL,
                        Phase.MAIN_TRIAL,
                        Phase.FIRING,
                        Phase.POST_PURGE,
                        Phase.STANDBY,
                        Phase.PRE_PURGE);
    }

    @ParameterizedTest
    @MethodSource("timedPhases")
    void aTimedPhaseTakesItsTime(Phase phase, Duration length) {
        runUntil(s -> s.phase() == phase);

        Duration took = Burner.STEP.multipliedBy(stepsUntil(s -> s.phase() != phase));

        assertThat(took).isEqualTo(length);
    }

    static Stream<Arguments> timedPhases() {
        BurnerSettings settings = BurnerSettings.brisk();
        return Stream.of(
                Arguments.of(Phase.PRE_PURGE, settings.prePurge()),
                Arguments.of(Phase.PILOT_TRIAL, settings.pilotTrial()),
                Arguments.of(Phase.MAIN_TRIAL, settings.mainTrial()),
                Arguments.of(Phase.POST_PURGE, settings.postPurge()));
    }

    @Test
    void aTimedPhaseTellsHowFarItIs() {
        runUntil(s -> s.phase() == Phase.PRE_PURGE);
        run(burner, 3 * STEPS_A_SECOND);

        assertThat(burner.state().inPhase()).isEqualTo(Duration.ofSeconds(3));
        assertThat(burner.state().phaseLength())
                .isEqualTo(BurnerSettings.brisk().prePurge());
    }

    @ParameterizedTest
    @ValueSource(longs = {1, 2, 3, 20261125})
    void theValuesOfAFiringBurnerArePlausible(long seed) {
        List<BurnerState> settled = run(new Burner(BurnerSettings.brisk(), seed), 3 * TEN_MINUTES).stream()
                .filter(s -> s.phase() == Phase.FIRING && s.inPhase().toSeconds() >= 20)
                .toList();

        assertThat(settled).as("seed %d", seed).isNotEmpty().allSatisfy(s -> {
            assertThat(s.oxygen()).isBetween(2.7, 5.2);
            assertThat(s.flueTemperature()).isBetween(90.0, 180.0);
            assertThat(s.waterTemperature()).isBetween(69.0, 85.0);
            assertThat(s.firingRate()).isBetween(20.0, 100.0);
            assertThat(s.fanSpeed()).isBetween(1400.0, 2900.0);
            assertThat(s.gasPressureMillibar()).isBetween(35.0, 55.0);
            assertThat(s.flameSignal()).isBetween(70.0, 100.0);
            assertThat(s.thermalPower()).isBetween(120.0, 600.0);
            assertThat(s.gasFlow()).isBetween(10.0, 60.0);
        });
    }

    @Test
    void theFiringRateFollowsTheLoad() {
        List<BurnerState> firing = run(burner, TEN_MINUTES).stream()
                .filter(s -> s.phase() == Phase.FIRING)
                .toList();

        assertThat(firing).anyMatch(s -> s.firingRate() > 95).anyMatch(s -> s.firingRate() < 60);
    }

    @Test
    void theFlueGasLagsBehindTheFire() {
        runUntil(s -> s.phase() == Phase.FIRING && s.firingRate() > 99);
        double atFullFire = burner.state().flueTemperature();
        run(burner, 10 * STEPS_A_SECOND);

        assertThat(burner.state().flueTemperature()).isGreaterThan(atFullFire + 5);
    }

    @Test
    void theFurnacePressureGoesBelowZeroAndAbove() {
        List<BurnerState> all = run(burner, TEN_MINUTES);

        assertThat(all).anyMatch(s -> s.furnacePressurePascal() < -2).anyMatch(s -> s.furnacePressurePascal() > 10);
    }

    @Test
    void gasAndFlameAreThereOnlyInTheirPhases() {
        assertThat(run(burner, TEN_MINUTES)).allSatisfy(s -> {
            if (!s.phase().hasGas()) {
                assertThat(s.pilotValve() || s.mainValve() || s.flamePresent()).isFalse();
                assertThat(s.thermalPower()).isZero();
                assertThat(s.firingRate()).isZero();
            }
        });
    }

    @Test
    void everyStartIsCountedAndOnlyFiringCountsHours() {
        BurnerState before = burner.state();
        List<BurnerState> all = run(burner, TEN_MINUTES);
        long firing = all.stream().filter(s -> s.phase() == Phase.FIRING).count();
        long starts = all.stream()
                .map(BurnerState::phase)
                .collect(ArrayList<Phase>::new, BurnerTest::addChanged, List::addAll)
                .stream()
                .filter(Phase.PILOT_TRIAL::equals)
                .count();

        assertThat(burner.state().starts() - before.starts()).isEqualTo((int) starts);
        assertThat(burner.state().runHours() - before.runHours())
                .isCloseTo(firing / 36000.0, org.assertj.core.api.Assertions.within(0.001));
    }

    @ParameterizedTest
    @MethodSource("troubles")
    void troubleLocksTheBurnerOutWithItsCause(Phase when, Consumer<Burner> trouble, Cause cause) {
        runUntil(s -> s.phase() == when && s.inPhase().toSeconds() >= 1);
        trouble.accept(burner);

        runUntil(BurnerState::lockout);

        assertThat(burner.state().cause()).isEqualTo(cause);
        assertThat(burner.state().flamePresent() || burner.state().mainValve()).isFalse();
    }

    static Stream<Arguments> troubles() {
        Consumer<Burner> flame = Burner::failFlame;
        Consumer<Burner> gas = Burner::shutGas;
        return Stream.of(
                Arguments.of(Phase.STANDBY, flame, Cause.NO_PILOT_FLAME),
                Arguments.of(Phase.PILOT_TRIAL, flame, Cause.NO_PILOT_FLAME),
                Arguments.of(Phase.MAIN_TRIAL, flame, Cause.NO_MAIN_FLAME),
                Arguments.of(Phase.FIRING, flame, Cause.FLAME_LOST),
                Arguments.of(Phase.PRE_PURGE, gas, Cause.LOW_GAS_PRESSURE),
                Arguments.of(Phase.FIRING, gas, Cause.LOW_GAS_PRESSURE));
    }

    @Test
    void aLockedOutBurnerStaysSoUntilItIsReset() {
        runUntil(s -> s.phase() == Phase.FIRING);
        burner.failFlame();
        runUntil(BurnerState::lockout);

        assertThat(run(burner, TEN_MINUTES)).allMatch(BurnerState::lockout);

        burner.resetAtTheBurner();
        assertThat(burner.state().phase()).isEqualTo(Phase.STANDBY);
        assertThat(burner.state().cause()).isEqualTo(Cause.NONE);
        runUntil(s -> s.phase() == Phase.FIRING);
    }

    @Test
    void aBurnerThatIsNotLockedOutTakesNoReset() {
        runUntil(s -> s.phase() == Phase.FIRING);

        burner.resetAtTheBurner();

        assertThat(burner.state().phase()).isEqualTo(Phase.FIRING);
    }

    @Test
    void withTheGasBackABurnerCanStartAgain() {
        runUntil(s -> s.phase() == Phase.FIRING);
        burner.shutGas();
        runUntil(BurnerState::lockout);

        burner.openGas();
        burner.resetAtTheBurner();

        runUntil(s -> s.phase() == Phase.FIRING);
    }

    private void runUntil(Predicate<BurnerState> reached) {
        stepsUntil(reached);
    }

    private int stepsUntil(Predicate<BurnerState> reached) {
        for (int steps = 0; steps < TEN_MINUTES; steps++) {
            if (reached.test(burner.state())) {
                return steps;
            }
            burner.step();
        }
        throw new AssertionError("not reached in ten minutes; now " + burner.state());
    }

    private static List<BurnerState> run(Burner burner, int steps) {
        List<BurnerState> states = new ArrayList<>();
        for (int i = 0; i < steps; i++) {
            burner.step();
            states.add(burner.state());
        }
        return states;
    }

    private static void addChanged(List<Phase> seen, Phase phase) {
        if (seen.isEmpty() || seen.get(seen.size() - 1) != phase) {
            seen.add(phase);
        }
    }
}
