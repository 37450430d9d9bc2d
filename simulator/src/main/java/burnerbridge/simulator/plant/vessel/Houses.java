package burnerbridge.simulator.plant.vessel;

import burnerbridge.simulator.value.Noise;
import java.time.Duration;
import java.util.Random;

/** What the glasshouses draw: it swings, wanders, and is never nothing. Shares of full power. */
final class Houses {
    private static final double TURN = 2 * Math.PI;
    private static final double LEAST = 0.01;

    private final double mean;
    private final double swing;
    private final double period;
    private final Noise wander;
    private final Noise weather;
    private double seconds;

    /**
     * @param mean on average
     * @param swing by how much it swings to either side
     * @param period in which it swings from low to high and back
     */
    Houses(double mean, double swing, Duration period, Random random) {
        this.mean = mean;
        this.swing = swing;
        this.period = period.toMillis() / 1000.0;
        this.wander = new Noise(random, 0.03, this.period / 6);
        this.weather = new Noise(random, 0.6, 300);
    }

    double step(double dt) {
        seconds += dt;
        weather.step(dt);
        return Math.max(LEAST, mean + swing * Math.sin(TURN * seconds / period) + wander.step(dt));
    }

    /** Temperature outside, in °C. */
    double outdoor() {
        return 6.5 + weather.value();
    }
}
