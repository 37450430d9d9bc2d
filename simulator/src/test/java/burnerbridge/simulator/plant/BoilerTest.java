package burnerbridge.simulator.plant;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import burnerbridge.simulator.plant.fire.Fuel;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.function.Consumer;
import java.util.function.Predicate;
import java.util.function.ToDoubleFunction;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;

class BoilerTest {
    private static final long SEED = 5;
    private static final Instant BEGINS = Instant.parse("2026-11-28T09:30:00Z");
    private static final BoilerSettings SETTINGS = Blueprints.boiler1();
    private static final int STEPS_A_SECOND = 10;
    private static final int TEN_MINUTES = 600 * STEPS_A_SECOND;

    private final Boiler boiler = boiler(SEED);

    @Test
    void twoBoilersOfOneSeedRunAlike() {
        Boiler twin = boiler(SEED);

        for (int i = 0; i < TEN_MINUTES; i++) {
            boiler.step();
            twin.step();
            assertThat(twin.state()).isEqualTo(boiler.state());
        }
    }

    @Test
    void anotherSeedRunsOtherwise() {
        Boiler other = boiler(SEED + 1);

        assertThat(run(other, TEN_MINUTES)).isNotEqualTo(run(boiler, TEN_MINUTES));
    }

    @Test
    void theSequenceGoesThroughItsPhasesInOrder() {
        List<Phase> seen = run(boiler, TEN_MINUTES).stream()
                .map(BoilerState::phase)
                .collect(ArrayList::new, BoilerTest::addChanged, List::addAll);

        assertThat(seen)
                .startsWith(
                        Phase.STANDBY,
                        Phase.PRE_PURGE,
                        Phase.IGNITION,
                        Phase.PILOT_TRIAL,
                        Phase.MAIN_TRIAL,
                        Phase.LOW_FIRE,
                        Phase.MODULATION,
                        Phase.POST_PURGE,
                        Phase.STANDBY,
                        Phase.PRE_PURGE);
    }

    @ParameterizedTest
    @MethodSource("timedPhases")
    void aTimedPhaseTakesItsTime(Phase phase, Duration length) {
        runUntil(s -> s.phase() == phase);

        Duration took = Boiler.STEP.multipliedBy(stepsUntil(s -> s.phase() != phase));

        assertThat(took).isEqualTo(length);
    }

    static Stream<Arguments> timedPhases() {
        return Stream.of(
                Arguments.of(Phase.PRE_PURGE, SETTINGS.times().prePurge()),
                Arguments.of(Phase.PILOT_TRIAL, SETTINGS.of(Fuel.GAS).pilotTrial()),
                Arguments.of(Phase.MAIN_TRIAL, SETTINGS.of(Fuel.GAS).mainTrial()),
                Arguments.of(Phase.LOW_FIRE, SETTINGS.times().lowFireHold()),
                Arguments.of(Phase.POST_PURGE, SETTINGS.times().postPurge()));
    }

    @Test
    void aTimedPhaseTellsHowFarItIs() {
        runUntil(s -> s.phase() == Phase.PRE_PURGE);
        run(boiler, 3 * STEPS_A_SECOND);

        assertThat(boiler.state().inPhase()).isEqualTo(Duration.ofSeconds(3));
        assertThat(boiler.state().phaseLength()).isEqualTo(SETTINGS.times().prePurge());
    }

    @ParameterizedTest
    @ValueSource(longs = {1, 2, 3, 20261125})
    void theValuesOfAFiringBoilerArePlausible(long seed) {
        List<BoilerState> settled = run(boiler(seed), 3 * TEN_MINUTES).stream()
                .filter(s -> s.phase() == Phase.MODULATION && s.inPhase().toSeconds() >= 20)
                .toList();

        assertThat(settled).as("seed %d", seed).isNotEmpty().allSatisfy(s -> {
            assertThat(s.flueGas().oxygen()).isBetween(2.7, 5.6);
            assertThat(s.flueGas().temperature()).isBetween(90.0, 180.0);
            assertThat(s.vessel().supply()).isBetween(66.0, 85.0);
            assertThat(s.firingRate()).isBetween(20.0, 100.0);
            assertThat(s.fire().fanSpeed()).isBetween(1400.0, 2900.0);
            assertThat(s.fire().gasPressure()).isBetween(35.0, 55.0);
            assertThat(s.fire().flameSignal()).isBetween(70.0, 100.0);
            assertThat(s.fire().power()).isBetween(120.0, 600.0);
            assertThat(s.fire().fuelFlow()).isBetween(10.0, 60.0);
        });
    }

    @Test
    void theFiringRateFollowsTheLoad() {
        List<BoilerState> firing = run(boiler, TEN_MINUTES).stream()
                .filter(s -> s.phase() == Phase.MODULATION)
                .toList();

        assertThat(firing).anyMatch(s -> s.firingRate() > 95).anyMatch(s -> s.firingRate() < 60);
    }

    @Test
    void theFlueGasLagsBehindTheFire() {
        runUntil(s -> s.phase() == Phase.MODULATION && s.firingRate() > 99);
        double atFullFire = boiler.state().flueGas().temperature();
        run(boiler, 10 * STEPS_A_SECOND);

        assertThat(boiler.state().flueGas().temperature()).isGreaterThan(atFullFire + 5);
    }

    @Test
    void theFurnacePressureGoesBelowZeroAndAbove() {
        List<BoilerState> all = run(boiler, TEN_MINUTES);

        assertThat(all)
                .anyMatch(s -> s.fire().furnacePressure() < -2)
                .anyMatch(s -> s.fire().furnacePressure() > 10);
    }

    @Test
    void fuelAndFlameAreThereOnlyInTheirPhases() {
        assertThat(run(boiler, TEN_MINUTES)).allSatisfy(s -> {
            if (!s.phase().hasFuel()) {
                assertThat(s.pilotValve() || s.mainValve() || s.fire().flame()).isFalse();
                assertThat(s.fire().power()).isZero();
                assertThat(s.firingRate()).isZero();
            }
        });
    }

    @Test
    void everyStartIsCountedAndOnlyFiringCountsHours() {
        BoilerState before = boiler.state();
        List<BoilerState> all = run(boiler, TEN_MINUTES);
        long firing = all.stream().filter(s -> s.phase().isFiring()).count();
        long starts = all.stream()
                .map(BoilerState::phase)
                .collect(ArrayList<Phase>::new, BoilerTest::addChanged, List::addAll)
                .stream()
                .filter(Phase.PILOT_TRIAL::equals)
                .count();

        assertThat(boiler.state().totals().allStarts() - before.totals().allStarts())
                .isEqualTo(starts);
        assertThat(boiler.state().totals().allRunHours() - before.totals().allRunHours())
                .isCloseTo(firing / 36000.0, org.assertj.core.api.Assertions.within(0.001));
    }

    @ParameterizedTest
    @MethodSource("troubles")
    void troubleLocksTheBoilerOutWithItsCause(Phase when, Consumer<Boiler> trouble, Cause cause) {
        runUntil(s -> s.phase() == when && s.inPhase().toSeconds() >= 1);
        trouble.accept(boiler);

        runUntil(BoilerState::lockout);

        assertThat(boiler.state().cause()).isEqualTo(cause);
        assertThat(boiler.state().fire().flame() || boiler.state().mainValve()).isFalse();
    }

    static Stream<Arguments> troubles() {
        Consumer<Boiler> flame = Boiler::failFlame;
        Consumer<Boiler> gas = Boiler::shutFuel;
        return Stream.of(
                Arguments.of(Phase.STANDBY, flame, Cause.NO_PILOT_FLAME),
                Arguments.of(Phase.PILOT_TRIAL, flame, Cause.NO_PILOT_FLAME),
                Arguments.of(Phase.MAIN_TRIAL, flame, Cause.NO_MAIN_FLAME),
                Arguments.of(Phase.MODULATION, flame, Cause.FLAME_LOST),
                Arguments.of(Phase.PRE_PURGE, gas, Cause.LOW_GAS_PRESSURE),
                Arguments.of(Phase.PRE_PURGE, (Consumer<Boiler>) Boiler::stallFan, Cause.AIR_NOT_PROVEN),
                Arguments.of(Phase.MODULATION, (Consumer<Boiler>) Boiler::stallFan, Cause.AIR_NOT_PROVEN),
                Arguments.of(Phase.PRE_PURGE, (Consumer<Boiler>) Boiler::stickDamper, Cause.NOT_AT_LIGHT_OFF),
                Arguments.of(Phase.LOW_FIRE, (Consumer<Boiler>) Boiler::stickDamper, Cause.DAMPER_ASTRAY),
                Arguments.of(Phase.MODULATION, (Consumer<Boiler>) Boiler::failWater, Cause.LOW_WATER),
                Arguments.of(Phase.STANDBY, (Consumer<Boiler>) Boiler::openLimiter, Cause.HIGH_LIMIT),
                Arguments.of(Phase.POST_PURGE, (Consumer<Boiler>) Boiler::openLimiter, Cause.HIGH_LIMIT),
                Arguments.of(Phase.MODULATION, gas, Cause.LOW_GAS_PRESSURE));
    }

    @Test
    void aLockedOutBoilerStaysSoUntilItIsReset() {
        runUntil(s -> s.phase() == Phase.MODULATION);
        boiler.failFlame();
        runUntil(BoilerState::lockout);

        assertThat(run(boiler, TEN_MINUTES)).allMatch(BoilerState::lockout);

        boiler.resetAtTheBurner();
        assertThat(boiler.state().phase()).isEqualTo(Phase.STANDBY);
        assertThat(boiler.state().cause()).isEqualTo(Cause.NONE);
        runUntil(s -> s.phase() == Phase.MODULATION);
    }

    @Test
    void aBoilerThatIsNotLockedOutTakesNoReset() {
        runUntil(s -> s.phase() == Phase.MODULATION);

        boiler.resetAtTheBurner();

        assertThat(boiler.state().phase()).isEqualTo(Phase.MODULATION);
    }

    @Test
    void withTheGasBackABoilerCanStartAgain() {
        runUntil(s -> s.phase() == Phase.MODULATION);
        boiler.shutFuel();
        runUntil(BoilerState::lockout);

        boiler.openFuel();
        boiler.resetAtTheBurner();

        runUntil(s -> s.phase() == Phase.MODULATION);
    }

    @Test
    void theLockoutIsKeptWithWhatTheBurnerDid() {
        runUntil(s -> s.phase() == Phase.MODULATION && s.firingRate() > 50);
        BoilerState before = boiler.state();
        boiler.failFlame();
        runUntil(BoilerState::lockout);

        FaultRecord newest = boiler.state().fault(0);
        assertThat(newest.cause()).isEqualTo(Cause.FLAME_LOST);
        assertThat(newest.phase()).isEqualTo(Phase.MODULATION);
        assertThat(newest.firingRate()).isGreaterThan(50);
        assertThat(newest.at())
                .isAfterOrEqualTo(before.at().minusSeconds(1))
                .isBefore(boiler.state().at());
        assertThat(boiler.state().fault(1)).isEqualTo(before.fault(0));
        assertThat(boiler.state().totals().lockouts()).isEqualTo(before.totals().lockouts() + 1);
    }

    @Test
    void theRingKeepsEightAndForgetsTheOldest() {
        FaultRecord oldest = boiler.state().fault(7);
        runUntil(s -> s.phase() == Phase.MODULATION);
        boiler.failFlame();
        runUntil(BoilerState::lockout);

        assertThat(boiler.state().faults()).hasSize(8).doesNotContain(oldest);
    }

    @Test
    void aDamperLagsBehindItsCommand() {
        runUntil(s -> s.phase() == Phase.PRE_PURGE);
        run(boiler, STEPS_A_SECOND);

        assertThat(boiler.state().fire().air().commanded()).isEqualTo(90);
        assertThat(boiler.state().fire().air().actual()).isBetween(5.0, 45.0);
    }

    @Test
    void moreLoadLeavesLessOxygenAndHotterFlueGas() {
        List<BoilerState> settled = run(boiler, 3 * TEN_MINUTES).stream()
                .filter(s -> s.phase() == Phase.MODULATION && s.inPhase().toSeconds() >= 25)
                .toList();

        assertThat(mean(settled, s -> s.firingRate() > 95, s -> s.flueGas().oxygen()))
                .isLessThan(
                        mean(settled, s -> s.firingRate() < 75, s -> s.flueGas().oxygen()) - 0.3);
        assertThat(mean(settled, s -> s.firingRate() > 95, s -> s.flueGas().carbonMonoxide()))
                .isGreaterThan(
                        mean(settled, s -> s.firingRate() < 75, s -> s.flueGas().carbonMonoxide()));
    }

    @Test
    void aBoilerThatMayNotGiveMoreDoesNot() {
        boiler.limitLoad(45);

        assertThat(run(boiler, TEN_MINUTES)).allMatch(s -> s.firingRate() <= 45);
    }

    @Test
    void aBurnerThatIsHeldDoesNotStart() {
        boiler.release(false);

        assertThat(run(boiler, TEN_MINUTES)).allMatch(s -> s.phase() == Phase.STANDBY && !s.available());
    }

    @Test
    void aBurnerOfTwoFuelsChangesOverByEndingItsOperation() {
        Boiler dual = new Boiler(Blueprints.steam1(), SEED, BEGINS);
        while (dual.state().phase() != Phase.MODULATION) {
            dual.step();
        }
        dual.choose(Fuel.OIL);
        List<BoilerState> after = run(dual, TEN_MINUTES);
        int change = IntStream.range(0, after.size())
                .filter(i -> after.get(i).fire().fuel() == Fuel.OIL)
                .findFirst()
                .orElseThrow();

        assertThat(after.subList(0, change)).noneMatch(s -> s.phase() == Phase.PRE_PURGE);
        assertThat(after.get(change).phase()).isEqualTo(Phase.STANDBY);
        assertThat(after)
                .anyMatch(s -> s.phase() == Phase.MODULATION
                        && s.fire().fuel() == Fuel.OIL
                        && s.fire().oil().actual() > 10
                        && s.fire().gas().actual() == 0
                        && s.fire().oilPressure() > 15);
        assertThat(dual.state().totals().starts().get(Fuel.OIL)).isGreaterThan(412);
    }

    @Test
    void aFuelThatABurnerHasNotCannotBeChosen() {
        assertThatThrownBy(() -> boiler.choose(Fuel.OIL)).hasMessage("the burner has no oil");
    }

    @Test
    void steamPressureFollowsFireAndDraw() {
        Boiler steam = new Boiler(Blueprints.steam1(), SEED, BEGINS);
        List<BoilerState> all = run(steam, 3 * TEN_MINUTES);

        assertThat(all).allMatch(s -> s.controlled() > 4 && s.controlled() < 9);
        assertThat(all).allMatch(s -> s.vessel().level() > 40 && s.vessel().level() < 62);
        assertThat(all).anyMatch(s -> s.phase() == Phase.MODULATION && s.firingRate() < 90);
    }

    private static double mean(
            List<BoilerState> states, Predicate<BoilerState> of, ToDoubleFunction<BoilerState> value) {
        return states.stream().filter(of).mapToDouble(value).average().orElseThrow();
    }

    private static Boiler boiler(long seed) {
        return new Boiler(SETTINGS, seed, BEGINS);
    }

    private void runUntil(Predicate<BoilerState> reached) {
        stepsUntil(reached);
    }

    private int stepsUntil(Predicate<BoilerState> reached) {
        for (int steps = 0; steps < TEN_MINUTES; steps++) {
            if (reached.test(boiler.state())) {
                return steps;
            }
            boiler.step();
        }
        throw new AssertionError("not reached in ten minutes; now " + boiler.state());
    }

    private static List<BoilerState> run(Boiler boiler, int steps) {
        List<BoilerState> states = new ArrayList<>();
        for (int i = 0; i < steps; i++) {
            boiler.step();
            states.add(boiler.state());
        }
        return states;
    }

    private static void addChanged(List<Phase> seen, Phase phase) {
        if (seen.isEmpty() || seen.get(seen.size() - 1) != phase) {
            seen.add(phase);
        }
    }
}
