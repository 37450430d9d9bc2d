package burnerbridge.site.unit;

import java.math.BigDecimal;
import java.math.BigInteger;
import java.math.MathContext;
import java.math.RoundingMode;

/**
 * (x × numerator + addend) / denominator: how a raw number becomes a value, and a value one in another
 * unit. The three are exact, and stay so when one follows another; the only rounding is that of the one
 * division at the end, to 24 digits, where it does not end by itself.
 */
public record Linear(BigDecimal numerator, BigDecimal addend, BigDecimal denominator) {
    public static final Linear IDENTITY = new Linear(BigDecimal.ONE, BigDecimal.ZERO, BigDecimal.ONE);

    private static final MathContext DIGITS = new MathContext(24, RoundingMode.HALF_EVEN);

    public Linear {
        if (numerator.signum() == 0 || denominator.signum() == 0) {
            throw new IllegalArgumentException("scale must not be 0");
        }
    }

    /** x × slope + addend in lowest terms. */
    static Linear of(Ratio slope, Ratio addend) {
        if (slope.ends() && addend.ends()) {
            return new Linear(slope.decimal(), addend.decimal(), BigDecimal.ONE);
        }
        BigInteger divisor = slope.denominator().gcd(addend.denominator());
        BigInteger common = slope.denominator().divide(divisor).multiply(addend.denominator());
        return new Linear(over(slope, common), over(addend, common), new BigDecimal(common));
    }

    /** The numerator that a fraction has over a multiple of its denominator. */
    private static BigDecimal over(Ratio ratio, BigInteger common) {
        return new BigDecimal(ratio.numerator().multiply(common.divide(ratio.denominator())));
    }

    /** The one that does both, this one first. */
    public Linear then(Linear next) {
        BigDecimal both = denominator.multiply(next.denominator);
        BigDecimal sum = addend.multiply(next.numerator).add(next.addend.multiply(denominator));
        return of(Ratio.of(numerator.multiply(next.numerator), both), Ratio.of(sum, both));
    }

    public boolean isIdentity() {
        return equals(IDENTITY);
    }

    /** Whether no division is left, so that every result is exact. */
    public boolean isDecimal() {
        return denominator.equals(BigDecimal.ONE);
    }

    public BigDecimal apply(BigDecimal x) {
        return divided(x.multiply(numerator).add(addend));
    }

    /** What becomes of a difference between two: no addend. */
    public BigDecimal applyToDifference(BigDecimal difference) {
        return divided(difference.multiply(numerator));
    }

    private BigDecimal divided(BigDecimal product) {
        return isDecimal() ? product : product.divide(denominator, DIGITS);
    }
}
