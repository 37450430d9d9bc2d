package burnerbridge.simulator.plant;

import burnerbridge.simulator.plant.fire.Fuel;
import java.util.EnumMap;
import java.util.Map;

/** Counts on from what was counted before. */
final class Counters {
    private static final double SECONDS_AN_HOUR = 3600;

    private final Map<Fuel, Long> starts = new EnumMap<>(Fuel.class);
    private final Map<Fuel, Double> runHours = new EnumMap<>(Fuel.class);
    private final Map<Fuel, Double> fuelUsed = new EnumMap<>(Fuel.class);
    private long lockouts;
    private double heat;
    private double poweredHours;

    Counters(Totals before) {
        starts.putAll(before.starts());
        runHours.putAll(before.runHours());
        fuelUsed.putAll(before.fuelUsed());
        lockouts = before.lockouts();
        heat = before.heat();
        poweredHours = before.poweredHours();
    }

    void start(Fuel fuel) {
        starts.merge(fuel, 1L, Long::sum);
    }

    void lockout() {
        lockouts++;
    }

    /**
     * A step.
     *
     * @param flow of the fuel, in m3/h or kg/h
     * @param given heat, in kW
     */
    void step(Fuel fuel, boolean firing, double flow, double given, double seconds) {
        double hours = seconds / SECONDS_AN_HOUR;
        poweredHours += hours;
        if (firing) {
            runHours.merge(fuel, hours, Double::sum);
            fuelUsed.merge(fuel, flow * hours, Double::sum);
            heat += given * hours;
        }
    }

    Totals totals() {
        return new Totals(starts, lockouts, runHours, fuelUsed, heat, poweredHours);
    }
}
