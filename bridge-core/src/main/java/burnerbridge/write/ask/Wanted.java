package burnerbridge.write.ask;

import java.math.BigDecimal;

/** What is asked for, as it came. */
public sealed interface Wanted {

    /** For people and for the audit. */
    String text();

    /** A value in the point's unit as it is shown, the number of a state, or 0 or 1 of a bit. */
    record Number(BigDecimal value) implements Wanted {
        /** Beyond any register; what is longer is no number that anybody means. */
        private static final int MOST_DIGITS = 400;

        @Override
        public String text() {
            return Math.abs((long) value.precision() - value.scale()) + Math.abs((long) value.scale()) > MOST_DIGITS
                    ? value.toString()
                    : value.toPlainString();
        }

        /**
         * @return as a number where it is one, else as what it is
         */
        public static Wanted of(double value) {
            return Double.isFinite(value)
                    ? new Number(BigDecimal.valueOf(value))
                    : new NoNumber(Double.toString(value));
        }
    }

    /**
     * Something that is no finite number: infinite, not a number, a text, an object.
     *
     * @param what it was, shortened
     */
    record NoNumber(String what) implements Wanted {
        private static final int LONGEST = 60;

        public NoNumber {
            String line = what.replaceAll("\\p{Cntrl}", "?");
            what = line.length() <= LONGEST ? line : line.substring(0, LONGEST - 1) + "…";
        }

        @Override
        public String text() {
            return what;
        }
    }

    /** The slot is given up. */
    record Nothing() implements Wanted {
        @Override
        public String text() {
            return "nothing";
        }
    }
}
