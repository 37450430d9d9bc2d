package burnerbridge.benchmark.measure;

/**
 * What was seen of one quantity: its middle and how it is spread.
 *
 * @param low and {@code high} are NaN where it was seen once
 */
record Seen(double median, double low, double high, Kind kind) {

    /** What low and high are. */
    enum Kind {
        QUARTILES("quartiles"),
        RANGE("least..most"),
        ONCE("once");

        private final String word;

        Kind(String word) {
            this.word = word;
        }

        /** As in a table and in a file of figures. */
        String word() {
            return word;
        }

        static Kind of(String word) {
            for (Kind kind : values()) {
                if (kind.word.equals(word)) {
                    return kind;
                }
            }
            throw new IllegalArgumentException("no spread: " + word);
        }
    }

    static Seen quartiles(Spread spread) {
        return new Seen(spread.median(), spread.lowerQuartile(), spread.upperQuartile(), Kind.QUARTILES);
    }

    static Seen range(Spread spread) {
        return new Seen(spread.median(), spread.least(), spread.most(), Kind.RANGE);
    }

    static Seen once(double value) {
        return new Seen(value, Double.NaN, Double.NaN, Kind.ONCE);
    }

    /** For people: {@code 20.2..22.8 (quartiles)}. */
    String spreadText() {
        return kind == Kind.ONCE ? kind.word : Digits.text(low) + ".." + Digits.text(high) + " (" + kind.word + ")";
    }
}
