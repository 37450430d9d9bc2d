package burnerbridge.simulator.manners;

import java.time.Duration;
import java.util.Optional;

/**
 * What becomes of a write that a device accepts.
 *
 * @param doing whether and how it is done
 * @param reply how it is answered; empty: as the device answers anything
 */
public record WriteCourse(Doing doing, Optional<Manners> reply) {
    /** As it should be. */
    public static final WriteCourse RIGHT = new WriteCourse(new Doing.AtOnce(), Optional.empty());

    /** Whether and how a write is done. */
    public sealed interface Doing {
        record AtOnce() implements Doing {}

        record Never() implements Doing {}

        /** So long after its request. */
        record Late(Duration after) implements Doing {}

        /** With other values than those that were written. */
        record Otherwise() implements Doing {}

        /** At once; and so long after its request somebody else brings back what was there before. */
        record UndoneBySomebodyElse(Duration after) implements Doing {}
    }
}
