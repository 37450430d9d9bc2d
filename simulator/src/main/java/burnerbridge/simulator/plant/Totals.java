package burnerbridge.simulator.plant;

import burnerbridge.simulator.plant.fire.Fuel;
import java.util.Map;

/**
 * What was counted since the boiler was built.
 *
 * @param starts with each fuel
 * @param lockouts of all causes
 * @param runHours with a proven main flame of each fuel
 * @param fuelUsed in m3 of gas, in kg of oil
 * @param heat that the boiler gave, in kWh
 * @param poweredHours of the controller
 */
public record Totals(
        Map<Fuel, Long> starts,
        long lockouts,
        Map<Fuel, Double> runHours,
        Map<Fuel, Double> fuelUsed,
        double heat,
        double poweredHours) {

    public Totals {
        starts = Map.copyOf(starts);
        runHours = Map.copyOf(runHours);
        fuelUsed = Map.copyOf(fuelUsed);
    }

    /** With every fuel. */
    public long allStarts() {
        return starts.values().stream().mapToLong(Long::longValue).sum();
    }

    /** With every fuel. */
    public double allRunHours() {
        return runHours.values().stream().mapToDouble(Double::doubleValue).sum();
    }
}
