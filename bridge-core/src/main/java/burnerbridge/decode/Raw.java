package burnerbridge.decode;

import burnerbridge.model.Reason;
import java.math.BigDecimal;
import java.math.BigInteger;

/** What the registers of a number hold, before scaling. */
sealed interface Raw {

    /**
     * A whole number.
     *
     * @param pattern the same bits without sign, as a manual writes them in hexadecimal
     */
    record Whole(BigInteger number, BigInteger pattern) implements Raw {}

    /** A finite floating-point number, as the shortest decimal that means it. */
    record Fraction(BigDecimal number, BigInteger pattern) implements Raw {}

    /** No number at all; the pattern may still be one that says "no sensor". */
    record Wrong(Reason reason, BigInteger pattern) implements Raw {}

    BigInteger pattern();
}
