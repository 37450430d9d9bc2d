package burnerbridge.benchmark.measure;

import java.util.Arrays;
import java.util.Locale;

/**
 * How values are spread. Quartiles and median are interpolated between neighbours, at the place
 * {@code share × (count − 1)} of the sorted values.
 */
public record Spread(double least, double lowerQuartile, double median, double upperQuartile, double most) {

    /** Of at least one value. */
    public static Spread of(double... values) {
        if (values.length == 0) {
            throw new IllegalArgumentException("a spread needs a value");
        }
        double[] sorted = values.clone();
        Arrays.sort(sorted);
        return new Spread(sorted[0], at(sorted, 0.25), at(sorted, 0.5), at(sorted, 0.75), sorted[sorted.length - 1]);
    }

    public static Spread of(long... values) {
        return of(Arrays.stream(values).asDoubleStream().toArray());
    }

    private static double at(double[] sorted, double share) {
        double place = share * (sorted.length - 1);
        int below = (int) place;
        int above = Math.min(below + 1, sorted.length - 1);
        return sorted[below] + (place - below) * (sorted[above] - sorted[below]);
    }

    /** The same in another unit. */
    public Spread times(double factor) {
        return new Spread(
                least * factor, lowerQuartile * factor, median * factor, upperQuartile * factor, most * factor);
    }

    /** Median and quartiles: {@code 21.3 (20.9..22.4)}. */
    public String quartiles(int decimals) {
        return text(decimals, median, lowerQuartile, upperQuartile);
    }

    /** Median, least and most: {@code 1.08 (1.01..1.22)}. */
    public String range(int decimals) {
        return text(decimals, median, least, most);
    }

    private static String text(int decimals, double middle, double low, double high) {
        String number = "%." + decimals + "f";
        return String.format(Locale.ROOT, number + " (" + number + ".." + number + ")", middle, low, high);
    }
}
