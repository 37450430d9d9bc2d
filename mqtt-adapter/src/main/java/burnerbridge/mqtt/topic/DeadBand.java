package burnerbridge.mqtt.topic;

import burnerbridge.model.IntegerValue;
import burnerbridge.model.RealValue;
import burnerbridge.model.Value;
import java.math.BigDecimal;
import java.util.Objects;
import org.jspecify.annotations.Nullable;

/**
 * How far a value may move from the one that was sent last without being sent: {@code change} is the
 * smallest move worth telling, here as in BACnet's COV increment (ASHRAE 135, 13.1).
 */
final class DeadBand {
    /** A step of a converted value is a fraction that does not end, and two values differ by a hair less. */
    private static final BigDecimal ALL_BUT_A_HAIR = new BigDecimal("0.999999");

    private DeadBand() {}

    /**
     * Whether a value moved by {@code change} or more. Zero, and a value that is no number, make every
     * difference count. Decimal arithmetic, so that a step from 0.2 to 0.3 is not less than 0.1.
     */
    static boolean isLeft(@Nullable Value sent, @Nullable Value now, BigDecimal change) {
        BigDecimal before = number(sent);
        BigDecimal after = number(now);
        if (change.signum() == 0 || before == null || after == null) {
            return !Objects.equals(sent, now);
        }
        return after.subtract(before).abs().compareTo(change.multiply(ALL_BUT_A_HAIR)) >= 0;
    }

    private static @Nullable BigDecimal number(@Nullable Value value) {
        if (value instanceof RealValue real) {
            return real.exact();
        }
        return value instanceof IntegerValue integer ? new BigDecimal(integer.number()) : null;
    }
}
