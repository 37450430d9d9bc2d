package burnerbridge.simulator.bench;

import burnerbridge.simulator.manners.Manners;
import burnerbridge.simulator.manners.Misbehaviour;
import java.util.Optional;
import java.util.Random;

/**
 * How the device is to treat requests from now on.
 *
 * @param what empty for well
 * @param number the argument, where there is one
 */
record Order(Optional<Misbehaviour> what, int number, When when) {
    static final Order WELL = new Order(Optional.empty(), 0, When.ALWAYS);

    Manners manners(Random dice) {
        return what.map(misbehaviour -> when.then(misbehaviour.manners(number, dice)))
                .orElse(Manners.WELL);
    }
}
