package burnerbridge.write.memory;

import java.math.BigDecimal;
import java.time.Instant;
import java.util.Optional;

/**
 * What the gate knows of a permitted point over a restart.
 *
 * @param spent how many writes were debited to its memory so far; it never falls
 * @param owed whether a demand stood, so that its silence action must act if nobody asks again
 * @param asleep why its permit sleeps; empty: it is awake
 * @param written the value that was written last, in the point's unit as it is shown; empty: none ever was
 */
public record PointMemory(long spent, boolean owed, Optional<Asleep> asleep, Optional<BigDecimal> written) {
    /** Of a point that was never written. */
    public static final PointMemory NONE = new PointMemory(0, false, Optional.empty(), Optional.empty());

    /**
     * A permit that does not act until a person has looked.
     *
     * @param reason for people
     * @param since UTC
     * @param believed whether the clock was believed to be right then
     */
    public record Asleep(String reason, Instant since, boolean believed) {}

    public PointMemory {
        if (spent < 0) {
            throw new IllegalArgumentException("0 writes or more were spent (was " + spent + ")");
        }
        // Equal values are equal memories, however they were written.
        written = written.map(value -> value.signum() == 0 ? BigDecimal.ZERO : value.stripTrailingZeros());
    }

    /** The same with one more write spent. */
    public PointMemory debited() {
        return new PointMemory(Math.addExact(spent, 1), owed, asleep, written);
    }

    /** The same with a demand that stands, or none. */
    public PointMemory owing(boolean silenceAction) {
        return new PointMemory(spent, silenceAction, asleep, written);
    }

    public PointMemory asleep(Asleep why) {
        return new PointMemory(spent, owed, Optional.of(why), written);
    }

    public PointMemory awake() {
        return new PointMemory(spent, owed, Optional.empty(), written);
    }

    /** The same with another value that was written last. */
    public PointMemory wrote(BigDecimal value) {
        return new PointMemory(spent, owed, asleep, Optional.of(value));
    }
}
