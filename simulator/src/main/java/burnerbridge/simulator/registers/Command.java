package burnerbridge.simulator.registers;

import burnerbridge.simulator.plant.Boiler;
import java.util.Map;
import java.util.Optional;

/**
 * What a boiler does when a register is written that shows something it can be told.
 *
 * @param least the lowest value that it takes, in the unit of the value
 * @param most the highest one
 */
record Command(double least, double most, Telling telling) {

    /** Tells a boiler a value. */
    @FunctionalInterface
    interface Telling {
        void tell(Boiler boiler, double value);
    }

    private static final Map<String, Command> ALL = Map.of(
            "load-limit", new Command(0, 100, Boiler::limitLoad),
            "released", new Command(0, 1, (boiler, value) -> boiler.release(value != 0)));

    /** The one of a signal; empty where it cannot be told. */
    static Optional<Command> of(String signal) {
        return Optional.ofNullable(ALL.get(signal));
    }

    boolean takes(double value) {
        return value >= least && value <= most;
    }
}
