package burnerbridge.simulator.plant;

import burnerbridge.simulator.value.Lagged;

/** The firing rate that holds water or steam at its set point: proportional and integral, limited in speed. */
final class Modulation {
    private static final double PERCENT_A_SECOND = 5;

    private final double setPoint;
    private final double gain;
    private final double integralSeconds;
    private double lowFire;
    private double highest = 100;
    private double integral;
    private double demand;
    private double rate;

    Modulation(BoilerSettings settings) {
        this.setPoint = settings.range().setPoint();
        this.gain = settings.load().gain();
        this.integralSeconds = settings.load().integral().toMillis() / 1000.0;
    }

    /** Asks for no more than this from now on, in % of full power, though never for less than low fire. */
    void limit(double percent) {
        highest = percent;
    }

    double limit() {
        return highest;
    }

    /** Begins at low fire, as after ignition. */
    void begin(double atLowFire) {
        lowFire = atLowFire;
        rate = atLowFire;
        integral = atLowFire;
        demand = atLowFire;
    }

    void end() {
        rate = 0;
        demand = 0;
    }

    void step(double controlled, double dt) {
        double error = setPoint - controlled;
        integral = limited(integral + gain * error * dt / integralSeconds);
        demand = limited(gain * error + integral);
        rate = Lagged.ramped(rate, demand, dt, PERCENT_A_SECOND);
    }

    /** In % of full power; 0 when not firing. */
    double rate() {
        return rate;
    }

    /** What it is on its way to, in % of full power. */
    double demand() {
        return demand;
    }

    private double limited(double percent) {
        return Math.max(lowFire, Math.min(highest, percent));
    }
}
