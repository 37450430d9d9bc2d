package burnerbridge.simulator.plant;

import java.time.Duration;
import java.util.Random;

/**
 * One burner on its boiler, stepped: every {@link #step()} lets {@link #STEP} pass on the burner's own
 * clock. Two burners of one seed and the same settings run alike, whatever the real clock does.
 *
 * <p>It is invented: a sequence and figures as burners in general have them. Not safe for use by several
 * threads.
 */
public final class Burner {
    /** What passes with each step. */
    public static final Duration STEP = Duration.ofMillis(100);

    private static final double SECONDS_A_STEP = 0.1;
    private static final double EFFICIENCY = 0.92;
    private static final double KILOWATT_HOURS_A_CUBIC_METRE = 10.3;
    /** From the gas valve to the first flame, and from the loss of a flame to the lockout. */
    private static final Duration LIGHTING = Duration.ofMillis(1300);

    private static final Duration FLAME_FAILURE_RESPONSE = Duration.ofSeconds(1);

    private final BurnerSettings settings;
    private final Water water;
    private final Combustion combustion;
    private final Modulation modulation;
    private Phase phase = Phase.STANDBY;
    private Cause cause = Cause.NONE;
    private long stepsInPhase;
    private long stepsWithoutFlame;
    private long stepsFiring;
    private int starts = 4213;
    private boolean flame;
    private boolean flameFails;
    private boolean gasSupplied = true;

    public Burner(BurnerSettings settings, long seed) {
        Random random = new Random(seed);
        this.settings = settings;
        this.water = new Water(settings, random);
        this.combustion = new Combustion(settings, random);
        this.modulation = new Modulation(settings);
    }

    /** Lets {@link #STEP} pass. */
    public void step() {
        stepsInPhase++;
        light();
        advance();
        if (phase == Phase.FIRING) {
            modulation.step(water.temperature(), SECONDS_A_STEP);
            stepsFiring++;
        }
        combustion.step(phase, modulation.rate(), flame, gasSupplied, water.temperature(), SECONDS_A_STEP);
        water.step(flame ? power() * EFFICIENCY : 0, SECONDS_A_STEP);
    }

    /** The flame goes out, or does not light, until {@link #resetAtTheBurner()}. */
    public void failFlame() {
        flameFails = true;
    }

    /** Somebody shuts the gas cock before the burner. */
    public void shutGas() {
        gasSupplied = false;
    }

    /** Somebody opens it again. */
    public void openGas() {
        gasSupplied = true;
    }

    /** Somebody who stands at the burner has mended it and resets it; without effect outside lockout. */
    public void resetAtTheBurner() {
        if (phase == Phase.LOCKOUT) {
            flameFails = false;
            cause = Cause.NONE;
            enter(Phase.STANDBY);
        }
    }

    /** What the burner shows now. */
    public BurnerState state() {
        return new BurnerState(
                phase,
                STEP.multipliedBy(stepsInPhase),
                length(phase),
                water.temperature(),
                combustion.flueTemperature(),
                modulation.rate(),
                combustion.oxygen(),
                combustion.fanSpeed(),
                combustion.gasPressure(),
                combustion.furnacePressure(),
                combustion.airActuator(),
                combustion.fuelActuator(),
                combustion.flameSignal(),
                power(),
                power() / KILOWATT_HOURS_A_CUBIC_METRE,
                starts,
                runHours(),
                settings.setpoint(),
                water.callsForHeat(),
                combustion.airProven(),
                phase == Phase.PILOT_TRIAL || phase == Phase.MAIN_TRIAL,
                phase == Phase.MAIN_TRIAL || phase == Phase.FIRING,
                flame,
                cause);
    }

    private void light() {
        boolean lit = phase != Phase.PILOT_TRIAL || lasted(LIGHTING);
        flame = phase.hasGas() && lit && !flameFails && !combustion.gasPressureLow();
    }

    private void advance() {
        switch (phase) {
            case STANDBY -> {
                if (water.callsForHeat() && lasted(settings.shortestStandby())) {
                    enter(Phase.PRE_PURGE);
                }
            }
            case PRE_PURGE -> {
                if (lasted(settings.prePurge())) {
                    ignite();
                }
            }
            case PILOT_TRIAL -> endTrial(settings.pilotTrial(), Phase.MAIN_TRIAL, Cause.NO_PILOT_FLAME);
            case MAIN_TRIAL -> endTrial(settings.mainTrial(), Phase.FIRING, Cause.NO_MAIN_FLAME);
            case FIRING -> watchFlame();
            case POST_PURGE -> {
                if (lasted(settings.postPurge())) {
                    enter(Phase.STANDBY);
                }
            }
            case LOCKOUT -> {
                // Only a person ends it.
            }
        }
    }

    private void ignite() {
        if (combustion.gasPressureLow()) {
            lockOut(Cause.LOW_GAS_PRESSURE);
        } else {
            starts = (starts + 1) & 0xFFFF;
            enter(Phase.PILOT_TRIAL);
        }
    }

    private void endTrial(Duration length, Phase next, Cause without) {
        if (!lasted(length)) {
            return;
        }
        if (flame) {
            enter(next);
        } else {
            lockOut(without);
        }
    }

    private void watchFlame() {
        stepsWithoutFlame = flame ? 0 : stepsWithoutFlame + 1;
        if (!STEP.multipliedBy(stepsWithoutFlame).minus(FLAME_FAILURE_RESPONSE).isNegative()) {
            lockOut(combustion.gasPressureLow() ? Cause.LOW_GAS_PRESSURE : Cause.FLAME_LOST);
        } else if (!water.callsForHeat()) {
            enter(Phase.POST_PURGE);
        }
    }

    private void lockOut(Cause why) {
        cause = why;
        enter(Phase.LOCKOUT);
    }

    private void enter(Phase next) {
        phase = next;
        stepsInPhase = 0;
        stepsWithoutFlame = 0;
        flame = flame && next.hasGas();
        if (next == Phase.FIRING) {
            modulation.begin();
        } else {
            modulation.end();
        }
    }

    private boolean lasted(Duration length) {
        return STEP.multipliedBy(stepsInPhase).compareTo(length) >= 0;
    }

    private Duration length(Phase of) {
        return switch (of) {
            case PRE_PURGE -> settings.prePurge();
            case PILOT_TRIAL -> settings.pilotTrial();
            case MAIN_TRIAL -> settings.mainTrial();
            case POST_PURGE -> settings.postPurge();
            case STANDBY, FIRING, LOCKOUT -> Duration.ZERO;
        };
    }

    /** Heat of the gas that burns, in kW. */
    private double power() {
        return flame ? settings.fullPower() * modulation.rate() / 100 : 0;
    }

    private double runHours() {
        return 8214.25 + stepsFiring * SECONDS_A_STEP / 3600;
    }
}
