package burnerbridge.simulator.value;

/** Values that follow a target. */
public final class Lagged {
    private Lagged() {}

    /** One step of a first-order lag with a time constant in seconds. */
    public static double towards(double value, double target, double seconds, double lag) {
        return target + (value - target) * Math.exp(-seconds / lag);
    }

    /** One step at no more than a rate a second. */
    public static double ramped(double value, double target, double seconds, double rate) {
        double most = rate * seconds;
        return value + Math.max(-most, Math.min(most, target - value));
    }
}
