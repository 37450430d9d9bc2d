package burnerbridge.simulator.plant;

import burnerbridge.simulator.plant.fire.Fuel;
import burnerbridge.simulator.plant.fire.FuelSettings;
import burnerbridge.simulator.plant.vessel.LoadRange;
import java.time.Duration;
import java.util.List;
import java.util.Map;

/**
 * How a boiler is built and set.
 *
 * @param fuels what is set for each that it can burn
 * @param fullPower heat of the fuel at full fire, in kW
 * @param before what was counted before
 */
public record BoilerSettings(
        Identity identity,
        Medium medium,
        double fullPower,
        double heatCapacity,
        Duration loadPeriod,
        Duration flueLag,
        Times times,
        LoadRange range,
        Load load,
        Limits limits,
        Map<Fuel, FuelSettings> fuels,
        Totals before) {

    /** What is heated; its heat capacity is in kJ/K of water, in kJ/bar of steam. */
    public enum Medium {
        WATER,
        STEAM
    }

    /** What the controller says of itself. */
    public record Identity(String model, String serialNumber, String firmware, int parameterSet) {}

    /**
     * Of the sequence.
     *
     * @param shortestStandby how long it rests at least between two starts
     * @param flameFailure from the loss of a flame to the lockout
     */
    public record Times(
            Duration prePurge,
            Duration lowFireHold,
            Duration postPurge,
            Duration shortestStandby,
            Duration flameFailure) {}

    /**
     * Of the load control.
     *
     * @param gain in % of full power for each °C or bar
     * @param integral time in which an error adds as much again
     */
    public record Load(double gain, Duration integral) {}

    /**
     * @param airPressure below which the air is not proven, in mbar
     * @param deviation of the damper from its curve, in degrees
     * @param flueTemperature above which it warns, in °C
     * @param oxygen below which it warns, in %
     * @param waterLevel below which it locks out, in % of the glass
     */
    public record Limits(
            double airPressure, double deviation, double flueTemperature, double oxygen, double waterLevel) {}

    public BoilerSettings {
        fuels = Map.copyOf(fuels);
        if (fuels.isEmpty()) {
            throw new IllegalArgumentException("a burner has a fuel");
        }
    }

    /** Those that it can burn, in the order of their kind. */
    public List<Fuel> burns() {
        return fuels.keySet().stream().sorted().toList();
    }

    /** What is set for a fuel. */
    public FuelSettings of(Fuel fuel) {
        FuelSettings set = fuels.get(fuel);
        if (set == null) {
            throw new IllegalArgumentException("the burner has no " + fuel.text());
        }
        return set;
    }
}
