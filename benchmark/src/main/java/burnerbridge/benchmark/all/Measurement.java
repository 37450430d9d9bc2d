package burnerbridge.benchmark.all;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;

/**
 * One command, and how it is called.
 *
 * @param name of it here; more than one may call the same command
 * @param takesJava whether it is told with which Java the daemon runs
 * @param arguments for each length
 */
record Measurement(String name, String command, boolean takesJava, Map<Length, List<String>> arguments) {

    /** Arguments are words with a space between them. */
    static Measurement of(String name, boolean takesJava, String many, String few, String least) {
        return new Measurement(name, name, takesJava, lengths(many, few, least));
    }

    private static Map<Length, List<String>> lengths(String many, String few, String least) {
        Map<Length, List<String>> lengths = new EnumMap<>(Length.class);
        lengths.put(Length.LONG, words(many));
        lengths.put(Length.SHORT, words(few));
        lengths.put(Length.MOMENT, words(least));
        return lengths;
    }

    private static List<String> words(String text) {
        return text.isEmpty() ? List.of() : Arrays.asList(text.split(" ", -1));
    }

    /** The same command with another name and other arguments. */
    Measurement named(String other, String many, String few, String least) {
        return new Measurement(other, command, takesJava, lengths(many, few, least));
    }

    List<String> arguments(Length length, List<String> javas) {
        List<String> all = new ArrayList<>(Objects.requireNonNull(arguments.get(length)));
        if (takesJava) {
            javas.forEach(java -> all.addAll(List.of("--java", java)));
        }
        return all;
    }
}
