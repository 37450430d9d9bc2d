package burnerbridge.simulator.plant.fire;

import java.time.Duration;

/**
 * What is set for each fuel by itself.
 *
 * @param lowFire smallest firing rate, in % of full power
 * @param pilotTrial how long the pilot has to light
 * @param mainTrial how long the main flame has to light
 * @param lowPressure below which the burner does not start: of gas in mbar, of oil in bar
 */
public record FuelSettings(
        double lowFire, Duration pilotTrial, Duration mainTrial, double lowPressure, FiringCurve curve) {

    public FuelSettings {
        if (!(lowFire > 0 && lowFire < 100)) {
            throw new IllegalArgumentException("low fire must be between 0 and 100 % (was " + lowFire + ")");
        }
    }
}
