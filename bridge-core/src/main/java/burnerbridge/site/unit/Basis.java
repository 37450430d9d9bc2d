package burnerbridge.site.unit;

import java.util.Arrays;
import java.util.Collection;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;

/**
 * What a number is counted from or related to, which its unit does not tell. It is carried and shown;
 * nothing is ever converted from one basis to another.
 *
 * @param words at most one of each pair or triple that exclude each other
 */
public record Basis(Set<Word> words) {
    public static final Basis NONE = new Basis(Set.of());

    /** One word of a basis; two of the same kind exclude each other. */
    public enum Word {
        GAUGE(Kind.REFERENCE),
        ABSOLUTE(Kind.REFERENCE),
        DIFFERENCE(Kind.REFERENCE),
        WET(Kind.WATER),
        DRY(Kind.WATER),
        NET(Kind.HEAT),
        GROSS(Kind.HEAT),
        NORMAL(Kind.STATE),
        STANDARD(Kind.STATE);

        private final Kind kind;

        Word(Kind kind) {
            this.kind = kind;
        }

        /** The word used in the point list. */
        public String word() {
            return name().toLowerCase(Locale.ROOT);
        }

        public static Optional<Word> ofWord(String word) {
            return Arrays.stream(values()).filter(w -> w.word().equals(word)).findFirst();
        }

        public boolean excludes(Word other) {
            return this != other && kind == other.kind;
        }
    }

    private enum Kind {
        REFERENCE,
        WATER,
        HEAT,
        STATE
    }

    public Basis {
        words = Set.copyOf(words);
        for (Word word : words) {
            if (words.stream().anyMatch(word::excludes)) {
                throw new IllegalArgumentException("a basis cannot be all of " + text(words));
            }
        }
    }

    public boolean isNone() {
        return words.isEmpty();
    }

    public boolean has(Word word) {
        return words.contains(word);
    }

    /** The words in a fixed order, with a space between: {@code dry normal}. */
    public String text() {
        return text(words);
    }

    static String text(Collection<Word> words) {
        return new TreeSet<>(words).stream().map(Word::word).collect(Collectors.joining(" "));
    }
}
