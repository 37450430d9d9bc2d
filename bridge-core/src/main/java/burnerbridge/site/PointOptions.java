package burnerbridge.site;

import java.util.Optional;

/**
 * What a row may say and most do not.
 *
 * @param meaning what the point tells the program
 * @param when while what it means something; empty: always
 */
public record PointOptions(Optional<Meaning> meaning, Optional<Condition> when) {
    public static final PointOptions NONE = new PointOptions(Optional.empty(), Optional.empty());

    public static PointOptions meaning(Meaning meaning) {
        return new PointOptions(Optional.of(meaning), Optional.empty());
    }

    public static PointOptions when(Condition condition) {
        return new PointOptions(Optional.empty(), Optional.of(condition));
    }

    /** The same with a condition. */
    public PointOptions with(Condition condition) {
        return new PointOptions(meaning, Optional.of(condition));
    }
}
