package burnerbridge.config.meaning;

import burnerbridge.config.row.PointRow;
import burnerbridge.site.ObjectKind;
import burnerbridge.site.PointOptions;
import java.util.Optional;

/** The {@code object-name} column: {@code {controller} flue}. */
public final class ObjectNameCell {
    public static final String COLUMN = "object-name";

    private static final int LONGEST = 64;

    private ObjectNameCell() {}

    public static Optional<String> read(PointRow row, Optional<ObjectKind> object) {
        String name = row.text(COLUMN);
        if (name.isEmpty()) {
            return Optional.empty();
        }
        if (object.filter(ObjectKind.NONE::equals).isPresent()) {
            row.error(COLUMN, "a point that has no object has no name of one (was '" + name + "')");
        } else if (name.replace(PointOptions.CONTROLLER, "").matches(".*[{}].*")) {
            row.error(
                    COLUMN,
                    "braces are for " + PointOptions.CONTROLLER + ", which stands for the controller's name (was '"
                            + name + "')");
        } else if (name.length() > LONGEST || !name.codePoints().allMatch(ObjectNameCell::isPrinted)) {
            row.error(COLUMN, "must be at most " + LONGEST + " printable characters (was '" + name + "')");
        }
        return Optional.of(name);
    }

    private static boolean isPrinted(int character) {
        return Character.isDefined(character) && !Character.isISOControl(character);
    }
}
