package burnerbridge.config.meaning;

import burnerbridge.config.row.PointRow;
import burnerbridge.site.Meaning;
import burnerbridge.site.Meaning.Kind;
import burnerbridge.site.PointFormat;
import burnerbridge.site.Role;
import burnerbridge.site.States;
import burnerbridge.site.unit.Basis;
import burnerbridge.site.unit.Quantity;
import java.util.Collection;
import java.util.Optional;
import java.util.function.Function;
import java.util.stream.Collectors;

/** Reads the {@code means} column, and holds it against what else the row says. */
public final class MeaningCell {
    public static final String COLUMN = "means";

    private MeaningCell() {}

    public static Optional<Meaning> read(PointRow row, PointFormat format, States states, Role role, UnitCells units) {
        Optional<Meaning> meaning = row.word(COLUMN, Meaning.words()).flatMap(Meaning::ofWord);
        meaning.ifPresent(m -> {
            Kind kind = Kind.of(format, states);
            checkKind(row, m, kind, format);
            checkRole(row, m, role);
            if (kind == Kind.NUMBER && m.kinds().contains(kind)) {
                checkUnit(row, m, units);
            }
        });
        return meaning;
    }

    private static void checkKind(PointRow row, Meaning meaning, Kind kind, PointFormat format) {
        if (!meaning.kinds().contains(kind)) {
            row.error(
                    COLUMN,
                    meaning.word() + " is told by " + anyOf(meaning.kinds(), Kind::withArticle)
                            + ", and this row holds " + kind.withArticle() + " (format '" + format.word() + "')");
        }
    }

    private static void checkRole(PointRow row, Meaning meaning, Role role) {
        if (!meaning.roles().contains(role)) {
            row.error(
                    COLUMN,
                    meaning.word() + " goes with the role " + anyOf(meaning.roles(), Role::word) + " (was '"
                            + role.word() + "')");
        }
    }

    private static void checkUnit(PointRow row, Meaning meaning, UnitCells units) {
        Quantity quantity = units.unit().quantity();
        if (!meaning.quantities().contains(quantity)) {
            row.error(
                    COLUMN,
                    meaning.word() + " is " + anyOf(meaning.quantities(), MeaningCell::what) + ", and "
                            + (quantity == Quantity.NONE
                                    ? "this row has no unit"
                                    : units.unit().symbol() + " is " + quantity.withArticle()));
        } else if (quantity == Quantity.TEMPERATURE && units.basis().has(Basis.Word.DIFFERENCE)) {
            row.error(COLUMN, meaning.word() + " is a temperature, and this row holds a difference");
        }
    }

    private static String what(Quantity quantity) {
        return quantity == Quantity.NONE ? "a number without a unit" : quantity.withArticle();
    }

    private static <T> String anyOf(Collection<T> some, Function<T, String> word) {
        return some.stream().map(word).collect(Collectors.joining(" or "));
    }
}
