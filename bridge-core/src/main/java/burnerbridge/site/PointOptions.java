package burnerbridge.site;

import java.util.Optional;

/**
 * What a row may say and most do not.
 *
 * @param meaning what the point tells the program
 * @param when while what it means something; empty: always
 * @param objectName of its BACnet object, where the usual one is not wanted; {@link #CONTROLLER} in it
 *     stands for the controller's name
 * @param writeOnly whether its registers cannot be read
 * @param alarm when people are to be told of it; empty: never
 */
public record PointOptions(
        Optional<Meaning> meaning,
        Optional<Condition> when,
        Optional<String> objectName,
        boolean writeOnly,
        Optional<AlarmDefinition> alarm) {
    public static final String CONTROLLER = "{controller}";

    public static final PointOptions NONE =
            new PointOptions(Optional.empty(), Optional.empty(), Optional.empty(), false, Optional.empty());

    public static PointOptions meaning(Meaning meaning) {
        return new PointOptions(Optional.of(meaning), Optional.empty(), Optional.empty(), false, Optional.empty());
    }

    public static PointOptions when(Condition condition) {
        return NONE.with(condition);
    }

    public static PointOptions objectName(String name) {
        return new PointOptions(Optional.empty(), Optional.empty(), Optional.of(name), false, Optional.empty());
    }

    /** The same with a condition. */
    public PointOptions with(Condition condition) {
        return new PointOptions(meaning, Optional.of(condition), objectName, writeOnly, alarm);
    }
}
