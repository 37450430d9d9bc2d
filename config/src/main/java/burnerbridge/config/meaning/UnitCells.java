package burnerbridge.config.meaning;

import burnerbridge.config.problem.NearestWord;
import burnerbridge.config.row.PointRow;
import burnerbridge.site.unit.Basis;
import burnerbridge.site.unit.Linear;
import burnerbridge.site.unit.Quantity;
import burnerbridge.site.unit.Unit;
import burnerbridge.site.unit.UnitSystem;
import java.util.EnumSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;

/**
 * Reads {@code unit}, {@code show-unit} and {@code basis}.
 *
 * @param unit of the value as the controller has it
 * @param shown of the value as the bridge shows it
 */
public record UnitCells(Unit unit, Unit shown, Basis basis) {
    private static final List<String> COLUMNS = List.of("unit", "show-unit", "basis");
    private static final UnitCells NONE = new UnitCells(Unit.NONE, Unit.NONE, Basis.NONE);

    public static UnitCells read(PointRow row, UnitSystem system) {
        Optional<Unit> written = unit(row, "unit");
        Optional<Unit> show = unit(row, "show-unit");
        if (written.isEmpty()) {
            refuseWithoutUnit(row);
            return NONE;
        }
        Basis basis = basis(row, written.get());
        Unit unit = ofBasis(written.get(), basis);
        Unit shown = show.map(other -> ofBasis(other, basis)).orElseGet(() -> system.shown(unit, basis));
        if (!unit.canBeShownAs(shown)) {
            refuseShown(row, unit, shown);
            return new UnitCells(unit, unit, basis);
        }
        if (shown != unit || (show.isEmpty() && system == UnitSystem.IMPERIAL)) {
            warnOfKelvin(row, unit);
        }
        return new UnitCells(unit, shown, basis);
    }

    /** From the value as the controller has it to the one that is shown. */
    public Linear conversion() {
        return unit.to(shown);
    }

    /** For a point that is no number. */
    public static void refuseAll(PointRow row, String what) {
        COLUMNS.stream().filter(row::has).forEach(column -> row.error(column, what + " has no unit"));
    }

    private static Optional<Unit> unit(PointRow row, String column) {
        String text = row.text(column);
        Optional<Unit> unit = Unit.find(text);
        if (unit.isEmpty() && !text.isEmpty()) {
            row.error(
                    column,
                    "must be a symbol or UCUM code of the table of units (was '" + text + "')"
                            + NearestUnit.hint(text));
        }
        return unit;
    }

    private static void refuseWithoutUnit(PointRow row) {
        for (String column : List.of("show-unit", "basis")) {
            if (row.has(column) && !row.has("unit")) {
                row.error(column, "says nothing without a unit (was '" + row.text(column) + "')");
            }
        }
    }

    private static Unit ofBasis(Unit unit, Basis basis) {
        return basis.has(Basis.Word.DIFFERENCE) ? unit.ofDifference() : unit;
    }

    private static void refuseShown(PointRow row, Unit unit, Unit shown) {
        row.error(
                "show-unit",
                unit.symbol() + " is " + unit.quantity().withArticle() + " and cannot be shown in " + shown.symbol()
                        + ", which is " + shown.quantity().withArticle());
    }

    private static Basis basis(PointRow row, Unit unit) {
        List<String> texts = row.has("basis") ? List.of(row.text("basis").split(" +")) : List.of();
        Set<Basis.Word> words = EnumSet.noneOf(Basis.Word.class);
        for (String text : texts) {
            Optional<Basis.Word> word = Basis.Word.ofWord(text).filter(unit.quantity()::allows);
            if (word.isEmpty()) {
                refuseBasis(row, unit, text);
            } else if (words.contains(word.get()) || words.stream().anyMatch(word.get()::excludes)) {
                row.error(
                        "basis",
                        "'" + text + "' does not go with what stands before it (was '" + row.text("basis") + "')");
            } else {
                words.add(word.get());
            }
        }
        return new Basis(words);
    }

    private static void refuseBasis(PointRow row, Unit unit, String text) {
        Quantity quantity = unit.quantity();
        String what = unit.symbol() + " is " + quantity.withArticle();
        String allowed = quantity.allowed().replace(" ", ", ");
        row.error(
                "basis",
                (allowed.isEmpty() ? "must be empty, since " : "must be of " + allowed + ", since ") + what + " (was '"
                        + text + "')" + NearestWord.hint(text, List.of(allowed.split(", "))));
    }

    /** A kelvin alone is a temperature, but most rows in kelvin are differences, which convert otherwise. */
    private static void warnOfKelvin(PointRow row, Unit unit) {
        if (unit == Unit.of("K")) {
            row.warning("unit", "K is taken for a temperature; where it is a difference, say so in the column basis");
        }
    }
}
