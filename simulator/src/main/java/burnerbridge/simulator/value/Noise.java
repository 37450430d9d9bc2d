package burnerbridge.simulator.value;

import java.util.Random;

/** A wandering value around 0: drawn from a seeded source, drawn back to 0 with a time constant. */
public final class Noise {
    private final Random random;
    private final double size;
    private final double lag;
    private double value;

    /**
     * @param size its standard deviation in the long run
     * @param lag in seconds
     */
    public Noise(Random random, double size, double lag) {
        this.random = random;
        this.size = size;
        this.lag = lag;
    }

    /** Lets so many seconds pass; returns its value then. */
    public double step(double seconds) {
        double kept = Math.exp(-seconds / lag);
        value = value * kept + random.nextGaussian() * size * Math.sqrt(1 - kept * kept);
        return value;
    }

    /** As it was after the last step. */
    public double value() {
        return value;
    }
}
