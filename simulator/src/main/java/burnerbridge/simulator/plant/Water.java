package burnerbridge.simulator.plant;

import java.time.Duration;
import java.util.Random;

/** The boiler's water: warmed by the burner, cooled by the houses, whose draw swings and wanders. */
final class Water {
    private static final double TURN = 2 * Math.PI;
    /** What the houses draw on average and by how much it swings, as shares of full power. */
    private static final double MEAN_DRAW = 0.32;

    private static final double SWING = 0.30;
    private static final double LEAST_DRAW = 0.01;

    private final BurnerSettings settings;
    private final Noise wander;
    private double seconds;
    private double temperature;
    private boolean calling;

    Water(BurnerSettings settings, Random random) {
        this.settings = settings;
        this.wander = new Noise(random, 0.03, inSeconds(settings.loadPeriod()) / 6);
        this.temperature = settings.startBelow() + 0.6;
    }

    /** One step with so much heat from the burner, in kW. */
    void step(double heat, double dt) {
        seconds += dt;
        temperature += (heat - draw(dt)) * dt / settings.heatCapacity();
        if (temperature < settings.startBelow()) {
            calling = true;
        } else if (temperature > settings.stopAbove()) {
            calling = false;
        }
    }

    double temperature() {
        return temperature;
    }

    boolean callsForHeat() {
        return calling;
    }

    private double draw(double dt) {
        double swing = SWING * Math.sin(TURN * seconds / inSeconds(settings.loadPeriod()));
        // A cool boiler gives less to the houses than a warm one.
        double warmth = Math.max(0, Math.min(1, (temperature - 30) / 40));
        return settings.fullPower() * warmth * Math.max(LEAST_DRAW, MEAN_DRAW + swing + wander.step(dt));
    }

    private static double inSeconds(Duration duration) {
        return duration.toMillis() / 1000.0;
    }
}
