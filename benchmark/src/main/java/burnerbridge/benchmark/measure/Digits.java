package burnerbridge.benchmark.measure;

import java.util.Locale;

/** Numbers for people, with as many decimals as their size deserves; nothing where there is no number. */
final class Digits {
    private Digits() {}

    static String text(double value) {
        return fixed(decimals(Math.abs(value)), value);
    }

    static String ratio(double value) {
        return fixed(value < 100 ? 2 : 0, value);
    }

    private static int decimals(double size) {
        if (size == 0 || size >= 1000) {
            return 0;
        }
        return size >= 10 ? 1 : size >= 1 ? 2 : 3;
    }

    private static String fixed(int decimals, double value) {
        return Double.isFinite(value) ? String.format(Locale.ROOT, "%." + decimals + "f", value) : "";
    }
}
