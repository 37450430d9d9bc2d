package burnerbridge.benchmark.measure;

import java.math.BigDecimal;
import java.util.Locale;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * What a figure is to be, where somebody said so. Its text is {@code ratio ..1.3}, {@code median ..96} or
 * {@code ratio 0.97..1.03}; empty for no aim.
 *
 * @param least and {@code most} are infinite where there is no such bound
 */
public record Aim(Of of, double least, double most) {
    public static final Aim NONE = new Aim(Of.NOTHING, Double.NEGATIVE_INFINITY, Double.POSITIVE_INFINITY);
    private static final Pattern TEXT = Pattern.compile("(ratio|median) ([0-9.]*?)\\.\\.([0-9.]*)");

    /** Which number of a figure is meant. */
    public enum Of {
        NOTHING,
        RATIO,
        MEDIAN
    }

    public static Aim ratioAtMost(double most) {
        return new Aim(Of.RATIO, Double.NEGATIVE_INFINITY, most);
    }

    public static Aim ratioWithin(double least, double most) {
        return new Aim(Of.RATIO, least, most);
    }

    public static Aim atMost(double most) {
        return new Aim(Of.MEDIAN, Double.NEGATIVE_INFINITY, most);
    }

    static Aim parse(String text) {
        if (text.isEmpty()) {
            return NONE;
        }
        Matcher matcher = TEXT.matcher(text);
        if (!matcher.matches()) {
            throw new IllegalArgumentException("no aim: " + text);
        }
        return new Aim(
                Of.valueOf(matcher.group(1).toUpperCase(Locale.ROOT)),
                bound(matcher.group(2), Double.NEGATIVE_INFINITY),
                bound(matcher.group(3), Double.POSITIVE_INFINITY));
    }

    private static double bound(String text, double otherwise) {
        return text.isEmpty() ? otherwise : Double.parseDouble(text);
    }

    /** As {@link #parse} reads it. */
    String text() {
        return of == Of.NOTHING ? "" : of.name().toLowerCase(Locale.ROOT) + " " + plain(least) + ".." + plain(most);
    }

    /** For people, with whether it is kept. */
    String told(Figure figure) {
        if (of == Of.NOTHING) {
            return "";
        }
        String bounds = Double.isInfinite(least) ? "at most " + plain(most) : plain(least) + " to " + plain(most);
        return (of == Of.RATIO ? "ratio " : "") + bounds + (isKept(figure) ? ": kept" : ": **missed**");
    }

    private boolean isKept(Figure figure) {
        double value = of == Of.RATIO ? figure.ratio() : figure.seen().median();
        return value >= least && value <= most;
    }

    private static String plain(double value) {
        return Double.isInfinite(value)
                ? ""
                : BigDecimal.valueOf(value).stripTrailingZeros().toPlainString();
    }
}
