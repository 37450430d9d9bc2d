package burnerbridge.config.meaning;

import burnerbridge.config.problem.NearestWord;
import burnerbridge.site.unit.Unit;
import java.util.List;
import java.util.Locale;
import java.util.Optional;

/** Finds the unit that somebody probably meant. */
final class NearestUnit {
    private NearestUnit() {}

    /** {@code "; did you mean 'psi' with the basis 'gauge'?"}, or nothing where no unit is near. */
    static String hint(String written) {
        return sameLetters(written)
                .or(() -> oftenWritten(written))
                .map(meant -> "; did you mean " + meant + "?")
                .orElseGet(() -> NearestWord.hint(written, symbols()));
    }

    private static List<String> symbols() {
        return Unit.all().stream().map(Unit::symbol).distinct().toList();
    }

    private static Optional<String> sameLetters(String written) {
        return symbols().stream()
                .filter(symbol -> symbol.equalsIgnoreCase(written))
                .findFirst()
                .map(symbol -> "'" + symbol + "'");
    }

    private static Optional<String> oftenWritten(String written) {
        for (Unit unit : Unit.all()) {
            for (String spelling : unit.oftenWritten()) {
                String[] parts = spelling.split("=", -1);
                if (plain(parts[0]).equals(plain(written))) {
                    return Optional.of(
                            "'" + unit.symbol() + "'" + (parts.length > 1 ? " with the basis '" + parts[1] + "'" : ""));
                }
            }
        }
        return Optional.empty();
    }

    /** Case, spaces, dots, brackets and the like tell no spellings apart. */
    private static String plain(String spelling) {
        return spelling.toLowerCase(Locale.ROOT)
                .replace('³', '3')
                .replace('²', '2')
                .replaceAll("[\\s._()\\[\\]^-]", "");
    }
}
