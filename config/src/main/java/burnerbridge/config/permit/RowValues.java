package burnerbridge.config.permit;

import burnerbridge.config.register.HeldNumbers;
import burnerbridge.site.Limits;
import burnerbridge.site.PointDefinition;
import burnerbridge.site.PointFormat;
import burnerbridge.site.Scaling;
import burnerbridge.site.permit.Allowed;
import burnerbridge.site.unit.Basis;
import burnerbridge.site.unit.Linear;
import burnerbridge.site.unit.Unit;
import java.math.BigDecimal;
import java.math.BigInteger;
import java.math.MathContext;
import java.math.RoundingMode;
import java.util.Optional;
import java.util.stream.Stream;

/** The numbers of a row: from its own unit to the one that is shown, and back to what its registers hold. */
final class RowValues {
    private static final String NUMBER = "[+-]?\\d{1,12}(?:\\.\\d{1,12})?";
    /** For messages: as many digits as somebody would write. */
    private static final MathContext READABLE = new MathContext(12, RoundingMode.HALF_EVEN);
    /** More than any format holds. */
    private static final MathContext EXACT = new MathContext(60, RoundingMode.HALF_EVEN);

    private static final int BITS_OF_A_REGISTER = 16;

    private final PointDefinition point;
    private final Linear toShown;
    private final Linear toRow;
    private final String unit;

    RowValues(PermitRow row) {
        this.point = row.point();
        Unit written = Unit.find(row.origin().unit())
                .map(found -> point.basis().has(Basis.Word.DIFFERENCE) ? found.ofDifference() : found)
                .orElse(Unit.NONE);
        this.toShown = written.to(point.unit());
        this.toRow = point.unit().to(written);
        this.unit = written.symbol();
    }

    /** Empty where a text is no number. */
    static Optional<BigDecimal> number(String text) {
        return text.matches(NUMBER) ? Optional.of(new BigDecimal(text)) : Optional.empty();
    }

    /** A value of the row's unit as it is shown. */
    BigDecimal shown(BigDecimal ofRow) {
        return toShown.apply(ofRow);
    }

    /** The same of a difference between two values. */
    BigDecimal shownDifference(BigDecimal ofRow) {
        return toShown.applyToDifference(ofRow);
    }

    /** The smallest change that the registers can make, in the row's unit; empty where every value can be made. */
    Optional<BigDecimal> step() {
        return point.format().isWhole()
                ? Optional.of(toRow.applyToDifference(point.scaling().step()))
                : Optional.empty();
    }

    /** For messages: a shown value in the row's unit. */
    String text(BigDecimal shown) {
        return plain(toRow.apply(shown)) + (unit.isEmpty() ? "" : " " + unit);
    }

    /** For messages: a difference in the row's unit. */
    String differenceText(BigDecimal ofRow) {
        return plain(ofRow) + (unit.isEmpty() ? "" : " " + unit);
    }

    private static String plain(BigDecimal number) {
        BigDecimal short12 = number.round(READABLE).stripTrailingZeros();
        return short12.toPlainString();
    }

    /** Why a range cannot be written, as it is shown; empty where it can. */
    Optional<String> objectionTo(Allowed.Range range) {
        return Stream.of(notHeld(range), outsideValid(range), withoutSensor(range))
                .flatMap(Optional::stream)
                .findFirst();
    }

    private Optional<String> notHeld(Allowed.Range range) {
        if (!point.format().isWhole()) {
            return Optional.empty();
        }
        HeldNumbers held = new HeldNumbers(point.format());
        if (held.contains(nearest(range.low())) && held.contains(nearest(range.high()))) {
            return Optional.empty();
        }
        BigDecimal one = point.scaling().apply(new BigDecimal(held.least()));
        BigDecimal other = point.scaling().apply(new BigDecimal(held.most()));
        return Optional.of("a " + point.format().word() + " holds " + text(one.min(other)) + " to "
                + text(one.max(other)) + " here");
    }

    private Optional<String> outsideValid(Allowed.Range range) {
        return point.limits()
                .valid()
                .filter(valid ->
                        range.low().compareTo(valid.low()) < 0 || range.high().compareTo(valid.high()) > 0)
                .map(valid -> "must lie inside valid, " + validText(valid));
    }

    private String validText(Limits.Range valid) {
        return text(valid.low()) + " to " + text(valid.high());
    }

    /** What is written and then read as "no sensor" would never be read back. */
    private Optional<String> withoutSensor(Allowed allowed) {
        return point.limits().noValue().stream()
                .flatMap(this::numbersOf)
                .filter(raw -> new HeldNumbers(point.format()).contains(raw))
                .filter(raw -> allowed.holds(point.scaling().apply(new BigDecimal(raw))))
                .findFirst()
                .map(raw -> "holds " + text(point.scaling().apply(new BigDecimal(raw))) + ", whose raw number " + raw
                        + " says by no-value that there is none");
    }

    /** A pattern may be written with its sign or without. */
    private Stream<BigInteger> numbersOf(BigDecimal pattern) {
        if (!point.format().isWhole() || pattern.stripTrailingZeros().scale() > 0) {
            return Stream.empty();
        }
        BigInteger number = pattern.toBigInteger();
        int bits = point.format() instanceof PointFormat.HalfRegister
                ? BITS_OF_A_REGISTER / 2
                : BITS_OF_A_REGISTER * point.format().width();
        return Stream.of(number, number.subtract(BigInteger.ONE.shiftLeft(bits)));
    }

    /** Why one value cannot be written and found again among those allowed; empty where it can. */
    Optional<String> objectionTo(BigDecimal shown, Allowed allowed) {
        if (!allowed.holds(shown)) {
            return Optional.of("must be a value that range allows");
        }
        BigDecimal decoded = decoded(shown);
        if (!allowed.holds(decoded)) {
            return Optional.of("would reach the controller as " + text(decoded)
                    + ", the nearest value that its registers hold, and that may not be written");
        }
        return Optional.empty();
    }

    /** What becomes of a value that goes through the registers. */
    private BigDecimal decoded(BigDecimal shown) {
        Scaling scaling = point.scaling();
        if (point.format() instanceof PointFormat.Floating floating) {
            double raw = raw(shown, EXACT).doubleValue();
            String shortest = floating.bits() == Float.SIZE ? Float.toString((float) raw) : Double.toString(raw);
            return scaling.apply(new BigDecimal(shortest));
        }
        return scaling.apply(new BigDecimal(nearest(shown)));
    }

    private BigInteger nearest(BigDecimal shown) {
        return raw(shown, EXACT).setScale(0, RoundingMode.HALF_EVEN).toBigInteger();
    }

    private BigDecimal raw(BigDecimal shown, MathContext digits) {
        Linear line = point.scaling().line();
        return shown.multiply(line.denominator()).subtract(line.addend()).divide(line.numerator(), digits);
    }

    /** Why a count from 0 on cannot be written as it is; empty where it can. */
    Optional<String> objectionToCount(int most) {
        if (!point.scaling().isNone()) {
            return Optional.of("is for a row without scale, and this one has one");
        }
        if (!new HeldNumbers(point.format()).contains(most)) {
            return Optional.of("a " + point.format().word() + " holds 0 to " + new HeldNumbers(point.format()).most());
        }
        Allowed.Range counted = new Allowed.Range(BigDecimal.ZERO, BigDecimal.valueOf(most));
        return outsideValid(counted).or(() -> withoutSensor(counted));
    }
}
