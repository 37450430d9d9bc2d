package burnerbridge.simulator.bench;

import burnerbridge.simulator.manners.Kind;
import burnerbridge.simulator.manners.Manners;
import burnerbridge.simulator.manners.Misbehaviour;
import burnerbridge.simulator.manners.WriteManners;
import burnerbridge.simulator.manners.WriteMisbehaviour;
import java.util.Optional;
import java.util.Random;

/**
 * How the device is to treat requests from now on, or the writes among them.
 *
 * @param what empty for well
 * @param number the argument, where there is one
 */
record Order(Optional<Kind> what, int number, When when) {
    static final Order WELL = new Order(Optional.empty(), 0, When.ALWAYS);

    /** How it treats everything; empty where this is about writes alone. */
    Optional<Manners> manners(Random dice) {
        if (what.isEmpty()) {
            return Optional.of(Manners.WELL);
        }
        return what.get() instanceof Misbehaviour misbehaviour
                ? Optional.of(when.then(misbehaviour.manners(number, dice)))
                : Optional.empty();
    }

    /** How it treats writes; empty where this is not about them alone. */
    Optional<WriteManners> writeManners(Random dice) {
        if (what.isEmpty()) {
            return Optional.of(WriteManners.WELL);
        }
        return what.get() instanceof WriteMisbehaviour misbehaviour
                ? Optional.of(when.then(misbehaviour.manners(number, dice)))
                : Optional.empty();
    }
}
