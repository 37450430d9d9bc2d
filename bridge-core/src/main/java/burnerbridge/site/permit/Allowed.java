package burnerbridge.site.permit;

import java.math.BigDecimal;
import java.util.Set;
import java.util.TreeSet;

/** Which values may be written. */
public sealed interface Allowed {

    /** Whether a number is one of them: a value in the point's unit as it is shown, a state's number, 0 or 1 of a bit. */
    boolean holds(BigDecimal value);

    /** For people: {@code 20..90}, {@code 0, 1}. */
    String text();

    /** Both ends included, in the point's unit as it is shown. */
    record Range(BigDecimal low, BigDecimal high) implements Allowed {
        public Range {
            if (low.compareTo(high) > 0) {
                throw new IllegalArgumentException("a range runs from low to high (was " + low + ".." + high + ")");
            }
        }

        @Override
        public boolean holds(BigDecimal value) {
            return value.compareTo(low) >= 0 && value.compareTo(high) <= 0;
        }

        @Override
        public String text() {
            return low.toPlainString() + ".." + high.toPlainString();
        }
    }

    /** Numbers of states; of a bit 0 and 1. */
    record States(Set<Long> numbers) implements Allowed {
        public States {
            numbers = java.util.Collections.unmodifiableSet(new TreeSet<>(numbers));
            if (numbers.isEmpty()) {
                throw new IllegalArgumentException("at least one state must be allowed");
            }
        }

        @Override
        public boolean holds(BigDecimal value) {
            return numbers.stream()
                    .anyMatch(number -> BigDecimal.valueOf(number).compareTo(value) == 0);
        }

        @Override
        public String text() {
            return String.join(", ", numbers.stream().map(String::valueOf).toList());
        }
    }
}
