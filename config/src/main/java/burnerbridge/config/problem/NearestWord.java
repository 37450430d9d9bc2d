package burnerbridge.config.problem;

import java.util.Collection;
import java.util.Comparator;
import java.util.Optional;

/** Finds the word that somebody probably meant. */
public final class NearestWord {
    /** Nothing allowed is longer, and comparing a cell of a megabyte would take for ever. */
    private static final int LONGEST = 200;

    private NearestWord() {}

    /** {@code "; did you mean 'holding-register'?"}, or nothing where no word is near. */
    public static String hint(String written, Collection<String> allowed) {
        return find(written, allowed)
                .map(word -> "; did you mean '" + word + "'?")
                .orElse("");
    }

    /** The allowed word within a third of its letters of the written one. */
    static Optional<String> find(String written, Collection<String> allowed) {
        if (written.length() > LONGEST) {
            return Optional.empty();
        }
        return allowed.stream()
                .filter(word -> distance(written, word) <= Math.max(1, word.length() / 3))
                .min(Comparator.comparingInt(word -> distance(written, word)));
    }

    /** How many letters must be put in, taken out or replaced to make one word of the other. */
    static int distance(String from, String to) {
        int[] row = new int[to.length() + 1];
        for (int j = 0; j < row.length; j++) {
            row[j] = j;
        }
        for (int i = 1; i <= from.length(); i++) {
            int diagonal = row[0];
            row[0] = i;
            for (int j = 1; j < row.length; j++) {
                int replaced = diagonal + (from.charAt(i - 1) == to.charAt(j - 1) ? 0 : 1);
                diagonal = row[j];
                row[j] = Math.min(replaced, 1 + Math.min(row[j], row[j - 1]));
            }
        }
        return row[to.length()];
    }
}
