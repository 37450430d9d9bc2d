package burnerbridge.bacnet.points;

import burnerbridge.model.BitValue;
import burnerbridge.model.IntegerValue;
import burnerbridge.model.RealValue;
import burnerbridge.model.StateValue;
import burnerbridge.model.Value;
import java.math.BigDecimal;
import java.math.BigInteger;
import java.util.Optional;

/** Values as numbers, exactly. */
final class Numeric {
    private Numeric() {}

    static Optional<BigDecimal> of(Value value) {
        if (value instanceof RealValue real) {
            return Optional.of(real.exact());
        }
        if (value instanceof IntegerValue integer) {
            return Optional.of(new BigDecimal(integer.number()));
        }
        if (value instanceof StateValue state) {
            return Optional.of(BigDecimal.valueOf(state.number()));
        }
        if (value instanceof BitValue bit) {
            return Optional.of(bit.on() ? BigDecimal.ONE : BigDecimal.ZERO);
        }
        return Optional.empty();
    }

    /** A number without decimals; empty for one with. */
    static Optional<BigInteger> whole(BigDecimal number) {
        BigDecimal plain = number.stripTrailingZeros();
        return plain.scale() <= 0 ? Optional.of(plain.toBigIntegerExact()) : Optional.empty();
    }
}
