package burnerbridge.simulator.registers;

import java.time.Instant;
import java.time.LocalDateTime;
import java.time.ZoneId;
import java.time.ZoneOffset;

/** A value on its way into registers, in one of three kinds. */
sealed interface Shown {

    /**
     * A number of steps.
     *
     * @param steps exact where it is whole
     */
    record Steps(double steps) implements Shown {

        /** The nearest whole number between two ends. */
        long whole(long least, long most) {
            return Math.max(least, Math.min(most, Math.round(steps)));
        }
    }

    record Text(String text) implements Shown {}

    record Moment(Instant at, ZoneId zone) implements Shown {

        LocalDateTime local() {
            return LocalDateTime.ofInstant(at, zone);
        }

        long epochSecond() {
            return at.atOffset(ZoneOffset.UTC).toEpochSecond();
        }
    }

    default Steps asSteps() {
        return as(Steps.class);
    }

    default Text asText() {
        return as(Text.class);
    }

    default Moment asMoment() {
        return as(Moment.class);
    }

    private <T extends Shown> T as(Class<T> kind) {
        if (!kind.isInstance(this)) {
            throw new IllegalArgumentException(this + " is no " + kind.getSimpleName());
        }
        return kind.cast(this);
    }
}
