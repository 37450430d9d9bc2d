package burnerbridge.model;

import java.util.Optional;
import org.jspecify.annotations.Nullable;

/**
 * The newest that is known of a point: value, quality with reason, and when its registers were asked
 * for.
 *
 * @param value null unless the quality is good or uncertain
 * @param reason why the quality is what it is; the quality follows from it
 * @param askedAt when the request for the registers left, never when the reply came; null where
 *     nothing was read yet
 * @param raw the registers as received; null where none were
 * @param exceptionCode the Modbus exception code, 1 to 255, of a refusal; 0 otherwise
 * @param lastGood the last good value, kept while the reading is not good; null where there was none
 */
public record Reading(
        @Nullable Value value,
        Reason reason,
        @Nullable Stamp askedAt,
        @Nullable Registers raw,
        int exceptionCode,
        @Nullable Good lastGood) {

    /** A good value and when its registers were asked for. */
    public record Good(Value value, Stamp askedAt) {}

    private static final Reading NOT_READ_YET = new Reading(null, Reason.NOT_READ_YET, null, null, 0, null);

    public Reading {
        boolean needsValue = reason == Reason.NONE || reason == Reason.UNKNOWN_STATE;
        if (needsValue && value == null) {
            throw new IllegalArgumentException("a reading with reason " + reason.word() + " needs a value");
        }
        if (value != null && (reason.quality() == Quality.BAD || reason.quality() == Quality.STALE)) {
            throw new IllegalArgumentException("a reading that is " + reason.word() + " has no value");
        }
        if (askedAt == null && reason != Reason.NOT_READ_YET) {
            throw new IllegalArgumentException("a reading with reason " + reason.word() + " needs a time");
        }
    }

    /** What every point has at the start. */
    public static Reading notReadYet() {
        return NOT_READ_YET;
    }

    public static Reading good(Value value, Stamp askedAt, Registers raw) {
        return new Reading(value, Reason.NONE, askedAt, raw, 0, null);
    }

    /** A value that may be seen but not trusted; keeps the last good one of the reading before. */
    public static Reading uncertain(Value value, Reason reason, Stamp askedAt, Registers raw, Reading before) {
        return new Reading(value, reason, askedAt, raw, 0, before.newestGood().orElse(null));
    }

    /** A reply that holds no value: out of range, no sensor, not a number. */
    public static Reading bad(Reason reason, Stamp askedAt, Registers raw, Reading before) {
        return new Reading(null, reason, askedAt, raw, 0, before.newestGood().orElse(null));
    }

    /** The controller refused these registers. */
    public static Reading refused(int exceptionCode, Stamp askedAt, Reading before) {
        return new Reading(
                null,
                Reason.REFUSED,
                askedAt,
                null,
                exceptionCode,
                before.newestGood().orElse(null));
    }

    /** This reading grown too old; it becomes not-read-yet where there never was a good value. */
    public Reading staled(Reason staleReason) {
        Optional<Good> good = newestGood();
        if (good.isEmpty()) {
            return NOT_READ_YET;
        }
        return new Reading(null, staleReason, askedAt, raw, 0, good.get());
    }

    public Quality quality() {
        return reason.quality();
    }

    public boolean isGood() {
        return reason == Reason.NONE;
    }

    /** The value itself while good, else the last good one. */
    public Optional<Good> newestGood() {
        if (isGood() && value != null && askedAt != null) {
            return Optional.of(new Good(value, askedAt));
        }
        return Optional.ofNullable(lastGood);
    }
}
