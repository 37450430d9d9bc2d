package burnerbridge.simulator.plant;

import burnerbridge.simulator.plant.fire.Fuel;
import java.time.Instant;

/**
 * What a controller keeps of a lockout.
 *
 * @param at to the second
 * @param phase that it locked out of
 * @param firingRate in % of full power
 * @param starts that the burner had made
 */
public record FaultRecord(Cause cause, Instant at, Phase phase, double firingRate, Fuel fuel, long starts) {}
