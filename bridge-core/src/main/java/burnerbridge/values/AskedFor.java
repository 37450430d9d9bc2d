package burnerbridge.values;

import burnerbridge.model.Value;
import burnerbridge.site.PointId;
import burnerbridge.site.States;
import java.time.Duration;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;

/**
 * What is asked for of a point that may be written, and who wins.
 *
 * @param slot that wins, 1 to 16; 0 where nobody asks
 * @param value that it holds; null where nobody asks
 * @param by who holds it; empty where nobody asks
 * @param left until its lease ends; null where nobody asks, or it holds until it is given up
 * @param why what keeps it from standing in the controller; empty where nothing does
 * @param untilNextWrite until a write that changes the value may leave
 * @param writesLeft of the budget of its memory; empty where that takes any number
 */
public record AskedFor(
        State state,
        int slot,
        PointRow.@Nullable Shown value,
        String by,
        @Nullable Duration left,
        String why,
        Duration untilNextWrite,
        OptionalLong writesLeft) {

    /** How it stands. */
    public enum State {
        /** No person has approved what may be written here. */
        NOT_APPROVED,
        /** The permit sleeps until a person approves it again. */
        ASLEEP,
        /** Nobody asks for anything. */
        NOBODY,
        /** What wins was read back from the controller, or is on its way. */
        STANDS,
        /** What wins cannot be written now, and is tried again. */
        WAITS,
        /** What wins was sent, and is not what the controller holds, or that is not known. */
        FAILED;

        /** As in JSON and CSV: {@code not-approved}. */
        public String word() {
            return name().toLowerCase(Locale.ROOT).replace('_', '-');
        }

        static State of(String word) {
            return valueOf(word.toUpperCase(Locale.ROOT).replace('-', '_'));
        }
    }

    /** Knows of every point that may be written who asks for what. */
    public interface Source {
        /** Nothing may be written, or nobody knows. */
        Source NONE = point -> Optional.empty();

        /** Empty where the point may not be written. For any thread. */
        Optional<AskedFor> of(PointId point);
    }

    /** A value that is asked for, as the rows show values. */
    public static PointRow.Shown shown(Value value, States states) {
        return new PointRow.Shown(ValueForm.json(value, states), ValueForm.text(value, states));
    }

    /** The same some time later. */
    AskedFor later(Duration by) {
        return new AskedFor(
                state,
                slot,
                value,
                this.by,
                left == null ? null : less(left, by),
                why,
                less(untilNextWrite, by),
                writesLeft);
    }

    private static Duration less(Duration time, Duration by) {
        return time.compareTo(by) < 0 ? Duration.ZERO : time.minus(by);
    }

    /** Short, for a column: {@code 8: 35.0, 14 min}. */
    public String text(Function<Duration, String> time) {
        return switch (state) {
            case NOT_APPROVED, ASLEEP, NOBODY -> state.word().replace('-', ' ');
            case STANDS, WAITS, FAILED ->
                slot + ": " + (value == null ? "" : value.text())
                        + (state == State.STANDS ? "" : " " + state.word())
                        + (left == null ? "" : ", " + time.apply(left));
        };
    }
}
