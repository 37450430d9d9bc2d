package burnerbridge.site.unit;

import java.math.BigDecimal;
import java.math.BigInteger;

/** An exact fraction in lowest terms with a positive denominator. */
record Ratio(BigInteger numerator, BigInteger denominator) {
    static final Ratio ZERO = new Ratio(BigInteger.ZERO, BigInteger.ONE);
    static final Ratio ONE = new Ratio(BigInteger.ONE, BigInteger.ONE);

    private static final BigInteger FIVE = BigInteger.valueOf(5);

    Ratio {
        if (denominator.signum() == 0) {
            throw new ArithmeticException(numerator + "/0");
        }
        BigInteger divisor = numerator.gcd(denominator);
        BigInteger shared = denominator.signum() < 0 ? divisor.negate() : divisor;
        numerator = numerator.divide(shared);
        denominator = denominator.divide(shared);
    }

    static Ratio of(BigDecimal number) {
        return number.scale() > 0
                ? new Ratio(number.unscaledValue(), BigInteger.TEN.pow(number.scale()))
                : new Ratio(number.toBigIntegerExact(), BigInteger.ONE);
    }

    static Ratio of(BigDecimal numerator, BigDecimal denominator) {
        return of(numerator).over(of(denominator));
    }

    /**
     * Reads {@code 0.3048}, {@code 5/9} or {@code 4.4482216152605/0.00064516}.
     *
     * @throws NumberFormatException where it is neither
     */
    static Ratio parse(String text) {
        int slash = text.indexOf('/');
        return slash < 0
                ? of(new BigDecimal(text))
                : of(new BigDecimal(text.substring(0, slash)), new BigDecimal(text.substring(slash + 1)));
    }

    Ratio minus(Ratio other) {
        return new Ratio(
                numerator.multiply(other.denominator).subtract(other.numerator.multiply(denominator)),
                denominator.multiply(other.denominator));
    }

    Ratio over(Ratio other) {
        return new Ratio(numerator.multiply(other.denominator), denominator.multiply(other.numerator));
    }

    int signum() {
        return numerator.signum();
    }

    /** Whether it can be written as a decimal: no prime but 2 and 5 divides the denominator. */
    boolean ends() {
        BigInteger rest = without(without(denominator, BigInteger.TWO), FIVE);
        return rest.equals(BigInteger.ONE);
    }

    private static BigInteger without(BigInteger number, BigInteger prime) {
        BigInteger rest = number;
        while (rest.mod(prime).signum() == 0) {
            rest = rest.divide(prime);
        }
        return rest;
    }

    /**
     * The decimal, in as few digits as it takes.
     *
     * @throws ArithmeticException where it does not end
     */
    BigDecimal decimal() {
        return new BigDecimal(numerator).divide(new BigDecimal(denominator)).stripTrailingZeros();
    }
}
