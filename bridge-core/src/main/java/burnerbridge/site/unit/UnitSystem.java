package burnerbridge.site.unit;

import burnerbridge.site.unit.Basis.Word;
import java.util.List;
import java.util.Locale;
import java.util.Optional;

/** What is shown where a row of the point list says nothing else. */
public enum UnitSystem {
    /** Each row's own unit. */
    AS_WRITTEN,
    METRIC,
    IMPERIAL;

    /** The words of {@code site.yaml}; a site without any shows what its rows have. */
    public static List<String> words() {
        return List.of(METRIC.word(), IMPERIAL.word());
    }

    public static Optional<UnitSystem> ofWord(String word) {
        return words().contains(word) ? Optional.of(valueOf(word.toUpperCase(Locale.ROOT))) : Optional.empty();
    }

    String word() {
        return name().toLowerCase(Locale.ROOT);
    }

    /**
     * The unit to show, by the table's columns {@code metric} and {@code imperial}. A gas at a reference
     * state keeps its unit: normal and standard states differ between the two worlds, and a normal cubic
     * metre shown in cubic feet would be taken for standard ones.
     */
    public Unit shown(Unit unit, Basis basis) {
        boolean atReferenceState = basis.has(Word.NORMAL) || basis.has(Word.STANDARD);
        String symbol = unit.symbolIn(this);
        if (symbol.isEmpty() || atReferenceState) {
            return unit;
        }
        Unit shown = Unit.of(symbol);
        return unit.isDifference() ? shown.ofDifference() : shown;
    }
}
