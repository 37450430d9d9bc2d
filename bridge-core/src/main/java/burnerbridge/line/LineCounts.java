package burnerbridge.line;

import java.util.EnumMap;
import java.util.Map;

/**
 * What became of the requests of a line, or of one unit on it, since the start. Every request that left is
 * one of answered, refused, silent and broken.
 *
 * @param broken how many in each way; those that never happened are left out
 * @param heard how often which other thing was heard; those that never happened are left out
 * @param shortReplies of those, the replies of at most {@value #SHORT} bytes on a serial line
 * @param longReplies of those, the replies of more than {@value #LONG} bytes
 * @param connections how often the connection or port of the line was opened
 * @param unasked how often bytes were found waiting on the line before a request, and thrown away
 */
public record LineCounts(
        long answered,
        long refused,
        long silent,
        Map<Fault, Long> broken,
        Map<Heard, Long> heard,
        ReplyShare shortReplies,
        ReplyShare longReplies,
        long connections,
        long unasked) {
    public static final int SHORT = 16;
    public static final int LONG = 32;

    /** Before the first request. */
    public static final LineCounts NONE =
            new LineCounts(0, 0, 0, Map.of(), Map.of(), ReplyShare.NONE, ReplyShare.NONE, 0, 0);

    public LineCounts {
        broken = Map.copyOf(broken);
        heard = Map.copyOf(heard);
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

    public long heard(Heard what) {
        return heard.getOrDefault(what, 0L);
    }

    /** What was added since an earlier count of the same line or unit. */
    public LineCounts since(LineCounts before) {
        return new LineCounts(
                answered - before.answered,
                refused - before.refused,
                silent - before.silent,
                sum(Fault.class, broken, before.broken, -1),
                sum(Heard.class, heard, before.heard, -1),
                shortReplies.minus(before.shortReplies),
                longReplies.minus(before.longReplies),
                connections - before.connections,
                unasked - before.unasked);
    }

    /** Adds what became of another unit's requests; the connections of the line stay. */
    LineCounts plus(LineCounts unit) {
        return new LineCounts(
                answered + unit.answered,
                refused + unit.refused,
                silent + unit.silent,
                sum(Fault.class, broken, unit.broken, 1),
                sum(Heard.class, heard, unit.heard, 1),
                shortReplies.plus(unit.shortReplies),
                longReplies.plus(unit.longReplies),
                connections,
                unasked);
    }

    private static <K extends Enum<K>> Map<K, Long> sum(Class<K> keys, Map<K, Long> one, Map<K, Long> other, int sign) {
        Map<K, Long> sum = new EnumMap<>(keys);
        sum.putAll(one);
        other.forEach((key, count) -> sum.merge(key, sign * count, Long::sum));
        sum.values().removeIf(count -> count == 0);
        return sum;
    }
}
