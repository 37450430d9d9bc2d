package burnerbridge.config;

import java.util.Comparator;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;

/** Collects every problem of a load, so that all are told at once, and each once. */
final class Problems {
    private static final int LONGEST = 2000;

    private final Set<Problem> found = new LinkedHashSet<>();

    /** Where in a file something stands. */
    record Place(String file, int line, int column) {
        static Place wholeFile(String file) {
            return new Place(file, 0, 0);
        }
    }

    void error(Place place, String message) {
        add(Problem.Severity.ERROR, place, message);
    }

    void warning(Place place, String message) {
        add(Problem.Severity.WARNING, place, message);
    }

    void note(Place place, String message) {
        add(Problem.Severity.NOTE, place, message);
    }

    boolean hasErrorsIn(String file) {
        return found.stream().anyMatch(p -> p.isError() && p.file().equals(file));
    }

    private void add(Problem.Severity severity, Place place, String message) {
        // A quoted cell may hold line ends and worse; a problem is one line for a terminal.
        String line = shortened(message).replaceAll("\\R", " ").replaceAll("\\p{Cntrl}", "?");
        found.add(new Problem(severity, place.file(), place.line(), place.column(), line));
    }

    /** A cell may hold a megabyte, and its end tells no more than its beginning. */
    private static String shortened(String message) {
        int half = LONGEST / 2;
        return message.length() <= LONGEST
                ? message
                : message.substring(0, half) + " … " + message.substring(message.length() - half);
    }

    boolean hasErrors() {
        return found.stream().anyMatch(Problem::isError);
    }

    /** By file in the order of their first problem, then by line and column. */
    List<Problem> inOrder() {
        List<String> files = found.stream().map(Problem::file).distinct().toList();
        return found.stream()
                .sorted(Comparator.comparingInt((Problem p) -> files.indexOf(p.file()))
                        .thenComparingInt(Problem::line)
                        .thenComparingInt(Problem::column))
                .toList();
    }
}
