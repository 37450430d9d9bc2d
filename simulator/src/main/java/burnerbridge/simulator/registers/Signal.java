package burnerbridge.simulator.registers;

import burnerbridge.simulator.plant.BoilerState;

/** Something that a boiler shows. */
@FunctionalInterface
interface Signal {

    /**
     * A {@link Number}, {@link Boolean}, {@link String}, {@link java.time.Instant} or
     * {@link burnerbridge.simulator.value.Named}; {@link Double#NaN} where there is no sensor.
     */
    Object of(BoilerState state);
}
