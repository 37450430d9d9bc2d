package burnerbridge.config.point;

import burnerbridge.config.row.PointRow;
import burnerbridge.config.type.Numbering;
import burnerbridge.config.type.TypeSettings;
import burnerbridge.site.Name;
import burnerbridge.site.PointDefinition;
import java.util.List;
import java.util.Map;

/** Warns of a list whose addresses are all right in the type's numbering and look like another. */
final class NumberingDoubt {
    private static final int FEWEST = 2;

    private NumberingDoubt() {}

    /** @param rows where each point stands */
    static void check(TypeSettings type, List<PointDefinition> points, Map<Name, PointRow> rows) {
        // Coils in prefixed numbering have a 0 in front and look like any number.
        List<PointDefinition> telling =
                points.stream().filter(point -> point.table().prefix() > 0).toList();
        if (type.numbering() == Numbering.PREFIXED
                || telling.size() < FEWEST
                || !telling.stream().allMatch(NumberingDoubt::looksPrefixed)) {
            return;
        }
        PointDefinition first = telling.get(0);
        PointRow row = rows.get(first.name());
        if (row != null) {
            String other = "numbering " + Numbering.PREFIXED.word();
            row.warning(
                    "address",
                    "all " + telling.size()
                            + " addresses of inputs and registers begin with their table's digit, as in "
                            + other + ", and the numbering of type " + type.name() + " is "
                            + type.numbering().word() + ": " + first.addressText() + " would be wire "
                            + Numbering.PREFIXED
                                    .wireAddress(first.table(), firstAddress(first))
                                    .orElseThrow()
                            + " in " + other);
        }
    }

    private static boolean looksPrefixed(PointDefinition point) {
        return Numbering.PREFIXED
                .wireAddress(point.table(), firstAddress(point))
                .isPresent();
    }

    private static String firstAddress(PointDefinition point) {
        return point.manualAddress().split("\\+", 2)[0].strip();
    }
}
