package burnerbridge.line;

import burnerbridge.site.UnitId;
import java.util.EnumMap;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.atomic.LongAdder;

/** Counts what becomes of a line's requests. The line's thread counts; any may read. */
final class LineCounters {
    private final LongAdder connections = new LongAdder();
    private final LongAdder unasked = new LongAdder();
    private final Map<UnitId, OfUnit> units = new ConcurrentHashMap<>();

    private static final class OfUnit {
        private final LongAdder answered = new LongAdder();
        private final LongAdder refused = new LongAdder();
        private final LongAdder silent = new LongAdder();
        private final Map<Fault, LongAdder> broken = new ConcurrentHashMap<>();

        void count(Outcome outcome) {
            if (outcome instanceof Outcome.Answered) {
                answered.increment();
            } else if (outcome instanceof Outcome.Refused) {
                refused.increment();
            } else if (outcome instanceof Outcome.Silent) {
                silent.increment();
            } else if (outcome instanceof Outcome.Broken wrong) {
                broken.computeIfAbsent(wrong.fault(), f -> new LongAdder()).increment();
            }
        }

        LineCounts counts(long connections, long unasked) {
            Map<Fault, Long> faults = new EnumMap<>(Fault.class);
            broken.forEach((fault, count) -> faults.put(fault, count.sum()));
            return new LineCounts(answered.sum(), refused.sum(), silent.sum(), faults, connections, unasked);
        }
    }

    void opened() {
        connections.increment();
    }

    void foundUnasked() {
        unasked.increment();
    }

    /** A request that never left counts as nothing. */
    void count(UnitId unit, Outcome outcome) {
        units.computeIfAbsent(unit, u -> new OfUnit()).count(outcome);
    }

    LineCounts ofLine() {
        LineCounts sum = new OfUnit().counts(connections.sum(), unasked.sum());
        for (OfUnit unit : units.values()) {
            sum = sum.plus(unit.counts(0, 0));
        }
        return sum;
    }

    LineCounts ofUnit(UnitId unit) {
        return units.getOrDefault(unit, new OfUnit()).counts(connections.sum(), unasked.sum());
    }
}
