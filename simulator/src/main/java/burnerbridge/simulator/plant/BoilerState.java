package burnerbridge.simulator.plant;

import burnerbridge.simulator.plant.fire.Fire;
import burnerbridge.simulator.plant.fire.FlueGas;
import burnerbridge.simulator.plant.fire.Fuel;
import burnerbridge.simulator.plant.vessel.VesselState;
import java.time.Duration;
import java.time.Instant;
import java.util.List;

/**
 * Everything that a boiler shows at one moment.
 *
 * @param at what its clock shows
 * @param phase where the sequence stands
 * @param inPhase how long it has stood there
 * @param phaseLength how long the phase takes; zero where it has no set end
 * @param cause why it locked out; {@link Cause#NONE} outside lockout
 * @param mode who decides
 * @param released whether it may run at all
 * @param chosen the fuel for the next start
 * @param firingRate in % of full power; 0 without a main flame
 * @param loadDemand what the load control asks for, in % of full power
 * @param loadLimit the highest load that the plant above allows, in % of full power
 * @param controlled what the load control holds, in °C or bar
 * @param faults the last lockouts as they lie in the controller's ring
 * @param newestFault in which slot of the ring the newest lies, from 0
 * @param beats how often the controller has gone round
 */
public record BoilerState(
        Instant at,
        Phase phase,
        Duration inPhase,
        Duration phaseLength,
        Cause cause,
        Mode mode,
        boolean released,
        Fuel chosen,
        double firingRate,
        double loadDemand,
        double loadLimit,
        double controlled,
        Fire fire,
        FlueGas flueGas,
        VesselState vessel,
        Totals totals,
        List<FaultRecord> faults,
        int newestFault,
        long beats,
        BoilerSettings settings) {

    public BoilerState {
        faults = List.copyOf(faults);
    }

    public boolean lockout() {
        return phase == Phase.LOCKOUT;
    }

    /** Whether it would start if heat were called for. */
    public boolean available() {
        return !lockout() && released && mode != Mode.OFF;
    }

    public boolean pilotValve() {
        return phase == Phase.PILOT_TRIAL || phase == Phase.MAIN_TRIAL;
    }

    public boolean mainValve() {
        return phase == Phase.MAIN_TRIAL || phase.isFiring();
    }

    public boolean igniter() {
        return phase == Phase.IGNITION || phase == Phase.PILOT_TRIAL;
    }

    /** Whether the flue gas is hotter than it should be. */
    public boolean flueTooHot() {
        return flueGas.temperature() > settings.limits().flueTemperature();
    }

    /** Whether the flame has too little air. */
    public boolean oxygenLow() {
        return phase.isFiring() && flueGas.oxygen() < settings.limits().oxygen();
    }

    /** A lockout by its age: 0 is the newest. */
    public FaultRecord fault(int age) {
        return faults.get(Math.floorMod(newestFault - age, faults.size()));
    }
}
