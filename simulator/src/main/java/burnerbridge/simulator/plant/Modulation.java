package burnerbridge.simulator.plant;

/** The firing rate that holds the water at its setpoint: proportional and integral, limited in speed. */
final class Modulation {
    private static final double PERCENT_A_KELVIN = 9;
    private static final double INTEGRAL_SECONDS = 40;
    private static final double PERCENT_A_SECOND = 6;

    private final BurnerSettings settings;
    private double integral;
    private double rate;

    Modulation(BurnerSettings settings) {
        this.settings = settings;
    }

    /** Begins at low fire, as after ignition. */
    void begin() {
        rate = settings.lowFire();
        integral = settings.lowFire();
    }

    void end() {
        rate = 0;
    }

    void step(double waterTemperature, double dt) {
        double error = settings.setpoint() - waterTemperature;
        integral = limited(integral + PERCENT_A_KELVIN * error * dt / INTEGRAL_SECONDS);
        rate = Lagged.ramped(rate, limited(PERCENT_A_KELVIN * error + integral), dt, PERCENT_A_SECOND);
    }

    /** In % of full power; 0 when not firing. */
    double rate() {
        return rate;
    }

    private double limited(double percent) {
        return Math.max(settings.lowFire(), Math.min(100, percent));
    }
}
