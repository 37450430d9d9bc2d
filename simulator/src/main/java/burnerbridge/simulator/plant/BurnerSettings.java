package burnerbridge.simulator.plant;

import java.time.Duration;

/**
 * How a burner and its boiler are built and set.
 *
 * @param prePurge how long it purges before ignition
 * @param pilotTrial how long the pilot has to light
 * @param mainTrial how long the main flame has to light
 * @param postPurge how long it purges after the flame
 * @param shortestStandby how long it rests at least between two starts
 * @param setpoint water temperature that the firing rate is modulated to, in °C
 * @param startBelow water temperature below which the boiler calls for heat, in °C
 * @param stopAbove water temperature above which it no longer does, in °C
 * @param fullPower heat of the gas at full fire, in kW
 * @param lowFire smallest firing rate, in % of full power
 * @param heatCapacity of the boiler and its water, in kJ/K
 * @param loadPeriod time in which what the houses draw swings once from low to high and back
 * @param flueLag time constant of the flue gas temperature
 */
public record BurnerSettings(
        Duration prePurge,
        Duration pilotTrial,
        Duration mainTrial,
        Duration postPurge,
        Duration shortestStandby,
        double setpoint,
        double startBelow,
        double stopAbove,
        double fullPower,
        double lowFire,
        double heatCapacity,
        Duration loadPeriod,
        Duration flueLag) {

    public BurnerSettings {
        if (!(startBelow < setpoint && setpoint < stopAbove)) {
            throw new IllegalArgumentException("start below " + startBelow + " °C, setpoint " + setpoint
                    + " °C and stop above " + stopAbove + " °C must rise in this order");
        }
        if (!(lowFire > 0 && lowFire < 100)) {
            throw new IllegalArgumentException("low fire must be between 0 and 100 % (was " + lowFire + ")");
        }
        if (!(fullPower > 0 && heatCapacity > 0)) {
            throw new IllegalArgumentException("full power and heat capacity must be above 0 (were " + fullPower
                    + " kW and " + heatCapacity + " kJ/K)");
        }
    }

    /** A small boiler of 600 kW with its times shortened, so that a whole cycle takes two and a half minutes. */
    public static BurnerSettings brisk() {
        return new BurnerSettings(
                Duration.ofSeconds(12),
                Duration.ofSeconds(4),
                Duration.ofSeconds(4),
                Duration.ofSeconds(8),
                Duration.ofSeconds(5),
                78,
                75,
                80.5,
                600,
                20,
                2000,
                Duration.ofSeconds(150),
                Duration.ofSeconds(6));
    }
}
