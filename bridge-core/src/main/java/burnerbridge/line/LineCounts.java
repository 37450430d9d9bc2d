package burnerbridge.line;

import java.util.EnumMap;
import java.util.Map;

/**
 * What became of the requests of a line, or of one unit on it, since the start. Every request that left is
 * one of answered, refused, silent and broken; the others are of the line as a whole.
 *
 * @param broken how many in each way; those that never happened are left out
 * @param connections how often the connection or port was opened
 * @param unasked how often bytes were found waiting before a request, and thrown away
 */
public record LineCounts(
        long answered, long refused, long silent, Map<Fault, Long> broken, long connections, long unasked) {

    public LineCounts {
        broken = Map.copyOf(broken);
    }

    /** How many requests left. */
    public long requests() {
        return answered
                + refused
                + silent
                + broken.values().stream().mapToLong(Long::longValue).sum();
    }

    public long broken(Fault fault) {
        return broken.getOrDefault(fault, 0L);
    }

    /** Adds what became of another unit's requests; the counts of the line stay. */
    LineCounts plus(LineCounts unit) {
        Map<Fault, Long> sum = new EnumMap<>(Fault.class);
        sum.putAll(broken);
        unit.broken.forEach((fault, count) -> sum.merge(fault, count, Long::sum));
        return new LineCounts(
                answered + unit.answered, refused + unit.refused, silent + unit.silent, sum, connections, unasked);
    }
}
