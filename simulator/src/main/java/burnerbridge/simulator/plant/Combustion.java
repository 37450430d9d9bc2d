package burnerbridge.simulator.plant;

import java.util.Random;

/**
 * Air, gas and flue gas. The figures are those of a natural-gas burner of middling size in general; none
 * is taken from a maker's sheet.
 */
final class Combustion {
    private static final double AIR_OXYGEN = 20.9;
    private static final double FULL_SPEED = 2900;
    private static final double AIR_PROVEN_SPEED = 900;
    private static final double DEGREES_A_SECOND = 20;
    private static final double SPEED_A_SECOND = 700;
    private static final double GAS_AT_REST = 48;
    private static final double GAS_LEAST = 25;

    private final double flueLag;
    private final Noise oxygenNoise;
    private final Noise pressureNoise;
    private final Noise gasNoise;
    private final Noise flameNoise;
    private double fanSpeed;
    private double airActuator;
    private double fuelActuator;
    private double gasPressure = GAS_AT_REST;
    private double furnacePressure = -4;
    private double oxygen = AIR_OXYGEN;
    private double flueTemperature = 52;
    private double flameSignal;

    Combustion(BurnerSettings settings, Random random) {
        this.flueLag = settings.flueLag().toMillis() / 1000.0;
        this.oxygenNoise = new Noise(random, 0.07, 3);
        this.pressureNoise = new Noise(random, 0.4, 1);
        this.gasNoise = new Noise(random, 0.15, 2);
        this.flameNoise = new Noise(random, 1.5, 2);
    }

    /** One step in a phase. */
    void step(Phase phase, double rate, boolean flame, boolean gasSupplied, double water, double dt) {
        moveActuators(phase, rate, dt);
        double fanShare = fanSpeed / FULL_SPEED;
        furnacePressure = -4.5 + 22 * fanShare * fanShare + pressureNoise.step(dt);
        double gasTarget = gasSupplied ? GAS_AT_REST - 0.07 * rate : 0;
        gasPressure = Lagged.towards(gasPressure, gasTarget + gasNoise.step(dt), dt, 1);
        breathe(rate, flame, dt);
        double flueTarget = flame && rate > 0 ? water + 14 + 0.8 * rate : water - 24;
        flueTemperature = Lagged.towards(flueTemperature, flueTarget, dt, flame ? flueLag : 2 * flueLag);
        signalFlame(phase, flame, dt);
    }

    private void moveActuators(Phase phase, double rate, double dt) {
        double air;
        double fuel;
        double speed;
        switch (phase) {
            case PRE_PURGE, POST_PURGE -> {
                air = 90;
                fuel = 0;
                speed = FULL_SPEED;
            }
            case PILOT_TRIAL, MAIN_TRIAL -> {
                air = 22;
                fuel = 15;
                speed = 1500;
            }
            case FIRING -> {
                air = 12 + 0.62 * rate;
                fuel = 6 + 0.66 * rate;
                speed = 1150 + 17 * rate;
            }
            default -> {
                air = 0;
                fuel = 0;
                speed = 0;
            }
        }
        airActuator = Lagged.ramped(airActuator, air, dt, DEGREES_A_SECOND);
        fuelActuator = Lagged.ramped(fuelActuator, fuel, dt, DEGREES_A_SECOND);
        fanSpeed = Lagged.ramped(fanSpeed, speed, dt, SPEED_A_SECOND);
    }

    private void breathe(double rate, boolean flame, double dt) {
        double wander = oxygenNoise.step(dt);
        double target = flame && rate > 0 ? 4.9 - 0.017 * rate + wander : AIR_OXYGEN;
        oxygen = Math.min(AIR_OXYGEN, Lagged.towards(oxygen, target, dt, 1.5));
    }

    private void signalFlame(Phase phase, boolean flame, double dt) {
        double wander = flameNoise.step(dt);
        double target = flame ? (phase == Phase.PILOT_TRIAL ? 52 : 84) + wander : 0;
        flameSignal = flame ? Lagged.towards(flameSignal, target, dt, 0.4) : 0;
    }

    boolean gasPressureLow() {
        return gasPressure < GAS_LEAST;
    }

    boolean airProven() {
        return fanSpeed > AIR_PROVEN_SPEED;
    }

    double fanSpeed() {
        return fanSpeed;
    }

    double airActuator() {
        return airActuator;
    }

    double fuelActuator() {
        return fuelActuator;
    }

    double gasPressure() {
        return gasPressure;
    }

    double furnacePressure() {
        return furnacePressure;
    }

    double oxygen() {
        return oxygen;
    }

    double flueTemperature() {
        return flueTemperature;
    }

    double flameSignal() {
        return flameSignal;
    }
}
