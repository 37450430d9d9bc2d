package burnerbridge.write.approval;

import java.math.BigDecimal;
import java.time.Duration;
import java.util.ArrayList;
import java.util.Collection;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.TreeMap;

/** Items as they are gathered; no two may have one name. */
final class ItemList {
    private final TreeMap<ApprovedItem.Key, ApprovedItem> items = new TreeMap<>();

    /** The items of one subject. */
    final class Subject {
        private final String name;

        private Subject(String name) {
            this.name = name;
        }

        Subject is(String what, String text) {
            ApprovedItem item = new ApprovedItem(name, what, text);
            if (items.put(item.key(), item) != null) {
                throw new IllegalArgumentException("two items are " + item.key());
            }
            return this;
        }

        Subject is(String what, long number) {
            return is(what, Long.toString(number));
        }

        Subject is(String what, boolean flag) {
            return is(what, flag ? "yes" : "no");
        }

        Subject is(String what, Duration time) {
            return is(what, seconds(time));
        }

        Subject is(String what, Enum<?> value) {
            return is(what, word(value));
        }

        /** Nothing where there is none, so that it is added or removed with its value. */
        Subject is(String what, Optional<?> value) {
            value.ifPresent(present -> is(what, present.toString()));
            return this;
        }
    }

    Subject of(String subject) {
        return new Subject(subject);
    }

    List<ApprovedItem> inOrder() {
        return List.copyOf(items.values());
    }

    static String plain(BigDecimal number) {
        return number.signum() == 0 ? "0" : number.stripTrailingZeros().toPlainString();
    }

    static String seconds(Duration time) {
        return plain(BigDecimal.valueOf(time.toNanos(), 9)) + " s";
    }

    static String word(Enum<?> value) {
        return value.name().toLowerCase(Locale.ROOT).replace('_', '-');
    }

    /** In a fixed order, since the order of the list decides nothing. */
    static String sorted(Collection<?> values) {
        List<String> texts =
                new ArrayList<>(values.stream().map(String::valueOf).toList());
        texts.sort(null);
        return texts.isEmpty() ? "none" : String.join(", ", texts);
    }
}
