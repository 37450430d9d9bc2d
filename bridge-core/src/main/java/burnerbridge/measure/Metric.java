package burnerbridge.measure;

import java.util.List;
import java.util.regex.Pattern;

/**
 * One thing that is counted or measured.
 *
 * @param name lower-case words with underscores and the base unit last, without {@code _total} for what is counted
 * @param labels the names of what tells its samples apart, in the order of their values
 */
public record Metric(String name, Kind kind, String help, List<String> labels) {
    private static final Pattern NAME = Pattern.compile("[a-z][a-z0-9]*(_[a-z0-9]+)*");

    /** How its samples go. */
    public enum Kind {
        /** Only up, from 0 at the start. */
        COUNTER,
        /** Up and down. */
        GAUGE
    }

    public Metric {
        labels = List.copyOf(labels);
        if (!NAME.matcher(name).matches() || name.endsWith("_total")) {
            throw new IllegalArgumentException("no name of a metric: " + name);
        }
        if (!labels.stream().allMatch(label -> NAME.matcher(label).matches())) {
            throw new IllegalArgumentException(name + ": no names of labels: " + labels);
        }
    }

    public static Metric counter(String name, String help, String... labels) {
        return new Metric(name, Kind.COUNTER, help, List.of(labels));
    }

    public static Metric gauge(String name, String help, String... labels) {
        return new Metric(name, Kind.GAUGE, help, List.of(labels));
    }
}
