package burnerbridge.site;

import java.math.BigDecimal;
import java.time.Duration;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;

/** When a point is not as it should be, so that people are to be told. */
public sealed interface AlarmDefinition {

    /** The longest delay. */
    Duration LONGEST_DELAY = Duration.ofHours(24);

    /** What is told. */
    enum Kind {
        /** The burner stopped and waits for a person; told before all others. */
        LOCKOUT,
        /** A number is too high. */
        HIGH,
        /** A number is too low. */
        LOW,
        /** A state that is not the usual one. */
        OFF_NORMAL;

        public static Optional<Kind> ofWord(String word) {
            return Arrays.stream(values()).filter(k -> k.word().equals(word)).findFirst();
        }

        public static List<String> words() {
            return Arrays.stream(values()).map(Kind::word).toList();
        }

        /** The word used in the point list: {@code off-normal}. */
        public String word() {
            return name().toLowerCase(Locale.ROOT).replace('_', '-');
        }

        public boolean isLimit() {
            return this == HIGH || this == LOW;
        }
    }

    Kind kind();

    /** How long it must have lasted before it is told; whole seconds, 0 to 24 h. */
    Duration delay();

    /** For people, without the delay: {@code high when > 95}. */
    String text();

    /**
     * A number beyond a limit.
     *
     * @param limit as shown, in the point's unit; at the limit itself all is well
     * @param deadband how far the number must come back behind the limit before all is well again; 0 or more
     */
    record OfLimit(Kind kind, BigDecimal limit, BigDecimal deadband, Duration delay) implements AlarmDefinition {
        public OfLimit {
            requireDelay(delay);
            if (!kind.isLimit() || deadband.signum() < 0) {
                throw new IllegalArgumentException("a limit is high or low, with a deadband of 0 or more (was "
                        + kind.word() + ", " + deadband.toPlainString() + ")");
            }
        }

        @Override
        public String text() {
            String back = deadband.signum() == 0 ? "" : ", deadband " + plain(deadband);
            return kind.word() + " when " + (kind == Kind.HIGH ? ">" : "<") + " " + plain(limit) + back;
        }
    }

    /**
     * Some of the states of a point.
     *
     * @param states as the controller numbers them; 0 and 1 of a bit
     */
    record OfStates(Kind kind, Set<Long> states, Duration delay) implements AlarmDefinition {
        public OfStates {
            states = Set.copyOf(states);
            requireDelay(delay);
            if (kind.isLimit() || states.isEmpty()) {
                throw new IllegalArgumentException("states are a lockout or off-normal, and there is one (was "
                        + kind.word() + ", " + states + ")");
            }
        }

        @Override
        public String text() {
            return kind.word() + " when "
                    + new TreeSet<>(states).stream().map(String::valueOf).collect(Collectors.joining("|"));
        }
    }

    private static String plain(BigDecimal number) {
        return number.stripTrailingZeros().toPlainString();
    }

    private static void requireDelay(Duration delay) {
        if (delay.isNegative() || delay.compareTo(LONGEST_DELAY) > 0 || delay.toMillis() % 1_000 != 0) {
            throw new IllegalArgumentException("a delay is 0 s to 24 h in whole seconds (was " + delay + ")");
        }
    }
}
