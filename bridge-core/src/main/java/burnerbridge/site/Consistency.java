package burnerbridge.site;

import java.util.Optional;
import java.util.OptionalInt;

/**
 * How a point must be read: with what together, so that it is not torn, and how often.
 *
 * @param twice whether it is read again until two readings agree, where a controller updates the words
 *     of a value separately
 * @param lowerWord the wire address of the less significant word where the two words of a value are
 *     apart; they are read high, low, high until both highs agree
 * @param group points of a controller with the same group are read in one transaction
 * @param scaleBy the point of the same group that holds the decimals of this one
 * @param once whether a read clears its registers: then no other read touches them, and none of them is
 *     ever repeated
 */
public record Consistency(
        boolean twice, OptionalInt lowerWord, Optional<Name> group, Optional<Name> scaleBy, boolean once) {
    /** One transaction holds the whole value, and that is enough. */
    public static final Consistency ONE_READ = new Consistency(false, OptionalInt.empty());

    /** A point whose registers a read clears. */
    public static final Consistency ONCE =
            new Consistency(false, OptionalInt.empty(), Optional.empty(), Optional.empty(), true);

    public Consistency {
        if (once && (twice || lowerWord.isPresent() || group.isPresent() || scaleBy.isPresent())) {
            throw new IllegalArgumentException("what a read clears is read once and alone");
        }
    }

    /** A point that belongs to no other. */
    public Consistency(boolean twice, OptionalInt lowerWord) {
        this(twice, lowerWord, Optional.empty(), Optional.empty());
    }

    /** A point that may be read again. */
    public Consistency(boolean twice, OptionalInt lowerWord, Optional<Name> group, Optional<Name> scaleBy) {
        this(twice, lowerWord, group, scaleBy, false);
    }

    /** The same in a group. */
    public Consistency inGroup(Name name) {
        return new Consistency(twice, lowerWord, Optional.of(name), scaleBy, once);
    }

    /** The same so many wire addresses higher. */
    Consistency shiftedBy(int addresses) {
        return lowerWord.isEmpty()
                ? this
                : new Consistency(twice, OptionalInt.of(lowerWord.getAsInt() + addresses), group, scaleBy, once);
    }
}
