package burnerbridge.line.diagnosis;

import burnerbridge.line.Fault;
import burnerbridge.line.Heard;
import burnerbridge.line.LineCounts;
import burnerbridge.line.ReplyShare;
import burnerbridge.site.UnitId;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.Map;

/** Counters that a test turns by hand; those of the line are the sum of its units and of what is of none. */
final class Counted {
    private final Map<UnitId, LineCounts> units = new HashMap<>();
    private LineCounts nobody = LineCounts.NONE;

    static LineCounts counts(long answered, long silent, Map<Fault, Long> broken, Map<Heard, Long> heard) {
        return new LineCounts(answered, 0, silent, broken, heard, ReplyShare.NONE, ReplyShare.NONE, 0, 0);
    }

    Counted add(int unit, LineCounts counts) {
        units.merge(new UnitId(unit), counts, Counted::plus);
        return this;
    }

    Counted answered(int unit, long count) {
        return add(unit, counts(count, 0, Map.of(), Map.of()));
    }

    Counted silent(int unit, long count) {
        return add(unit, counts(0, count, Map.of(), Map.of()));
    }

    Counted broken(int unit, Fault fault, long count) {
        return add(unit, counts(0, 0, Map.of(fault, count), Map.of()));
    }

    Counted heard(int unit, Heard what, long count) {
        return add(unit, counts(0, 0, Map.of(), Map.of(what, count)));
    }

    Counted noise(long count) {
        nobody = plus(nobody, counts(0, 0, Map.of(), Map.of(Heard.NOISE, count)));
        return this;
    }

    /** Answered and broken by their checksum, of both lengths. */
    Counted lengths(int unit, ReplyShare low, ReplyShare high) {
        long spoilt = low.spoilt() + high.spoilt();
        Map<Fault, Long> broken = spoilt == 0 ? Map.of() : Map.of(Fault.CHECKSUM, spoilt);
        return add(unit, new LineCounts(low.whole() + high.whole(), 0, 0, broken, Map.of(), low, high, 0, 0));
    }

    Census census() {
        return new Census(units.values().stream().reduce(nobody, Counted::plus), units);
    }

    private static LineCounts plus(LineCounts one, LineCounts other) {
        return new LineCounts(
                one.answered() + other.answered(),
                one.refused() + other.refused(),
                one.silent() + other.silent(),
                sum(Fault.class, one.broken(), other.broken()),
                sum(Heard.class, one.heard(), other.heard()),
                sum(one.shortReplies(), other.shortReplies()),
                sum(one.longReplies(), other.longReplies()),
                0,
                0);
    }

    private static ReplyShare sum(ReplyShare one, ReplyShare other) {
        return new ReplyShare(one.whole() + other.whole(), one.spoilt() + other.spoilt());
    }

    private static <K extends Enum<K>> Map<K, Long> sum(Class<K> keys, Map<K, Long> one, Map<K, Long> other) {
        Map<K, Long> sum = new EnumMap<>(keys);
        sum.putAll(one);
        other.forEach((key, count) -> sum.merge(key, count, Long::sum));
        return sum;
    }
}
