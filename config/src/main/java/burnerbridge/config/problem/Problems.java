package burnerbridge.config.problem;

import java.util.Collection;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;

/** Collects every problem of a load, so that all are told at once, and each once. */
public final class Problems {
    /** More of one file tell nothing new; a file of a million wrong rows would take the machine's memory. */
    private static final int MOST_IN_A_FILE = 1000;

    private final Set<Problem> found = new LinkedHashSet<>();

    /** Where in a file something stands. */
    public record Place(String file, int line, int column) {
        public static Place wholeFile(String file) {
            return new Place(file, 0, 0);
        }
    }

    private final Map<String, Integer> counts = new HashMap<>();

    public void error(Place place, String message) {
        add(Problem.Severity.ERROR, place, message);
    }

    public void warning(Place place, String message) {
        add(Problem.Severity.WARNING, place, message);
    }

    public void note(Place place, String message) {
        add(Problem.Severity.NOTE, place, message);
    }

    public boolean hasErrorsIn(String file) {
        return found.stream().anyMatch(p -> p.isError() && p.file().equals(file));
    }

    /** Whether no more problems of a file are kept, so that the rest of it need not be looked at. */
    public boolean isFull(String file) {
        return counts.getOrDefault(file, 0) > MOST_IN_A_FILE;
    }

    private void add(Problem.Severity severity, Place place, String message) {
        if (isFull(place.file())) {
            return;
        }
        Problem problem = new Problem(severity, place.file(), place.line(), place.column(), message);
        if (found.contains(problem)) {
            return;
        }
        if (counts.merge(place.file(), 1, Integer::sum) > MOST_IN_A_FILE) {
            String full = "has more than " + MOST_IN_A_FILE + " problems, and the others are not told";
            found.add(new Problem(Problem.Severity.ERROR, place.file(), 0, 0, full));
        } else {
            found.add(problem);
        }
    }

    public boolean hasErrors() {
        return found.stream().anyMatch(Problem::isError);
    }

    /** By file in the order of their first problem, then by line and column. */
    public List<Problem> inOrder() {
        return ordered(found);
    }

    /** Likewise. */
    public static List<Problem> ordered(Collection<Problem> problems) {
        List<String> files = problems.stream().map(Problem::file).distinct().toList();
        return problems.stream()
                .sorted(Comparator.comparingInt((Problem p) -> files.indexOf(p.file()))
                        .thenComparingInt(Problem::line)
                        .thenComparingInt(Problem::column))
                .toList();
    }
}
