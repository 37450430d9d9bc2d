package burnerbridge.simulator.bench;

import java.util.Collection;
import java.util.Comparator;

/** Finds what somebody may have meant. */
final class Nearest {
    private Nearest() {}

    /** Of some words the one that takes the fewest changes of a letter to be this one; the first of equals. */
    static String to(String word, Collection<String> words) {
        return words.stream()
                .min(Comparator.comparingInt(candidate -> changes(word, candidate)))
                .orElse("");
    }

    /** How many letters must be put in, taken out or replaced. */
    static int changes(String one, String other) {
        int[] row = new int[other.length() + 1];
        for (int j = 0; j < row.length; j++) {
            row[j] = j;
        }
        for (int i = 1; i <= one.length(); i++) {
            int diagonal = row[0];
            row[0] = i;
            for (int j = 1; j < row.length; j++) {
                int replaced = diagonal + (one.charAt(i - 1) == other.charAt(j - 1) ? 0 : 1);
                diagonal = row[j];
                row[j] = Math.min(replaced, 1 + Math.min(row[j], row[j - 1]));
            }
        }
        return row[other.length()];
    }
}
