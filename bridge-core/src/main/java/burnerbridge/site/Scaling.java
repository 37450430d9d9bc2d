package burnerbridge.site;

import java.math.BigDecimal;

/** value = raw × scale + offset, in exact decimal arithmetic. */
public record Scaling(BigDecimal scale, BigDecimal offset) {
    public static final Scaling NONE = new Scaling(BigDecimal.ONE, BigDecimal.ZERO);

    public Scaling {
        if (scale.signum() == 0) {
            throw new IllegalArgumentException("scale must not be 0");
        }
    }

    public boolean isNone() {
        return equals(NONE);
    }

    public BigDecimal apply(BigDecimal raw) {
        return raw.multiply(scale).add(offset);
    }
}
