package burnerbridge.line;

import burnerbridge.line.frame.Overheard;
import burnerbridge.line.frame.Pdu;
import burnerbridge.site.UnitId;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.Map;
import java.util.Set;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.atomic.LongAdder;

/** Counts what becomes of a line's requests, and what else is heard. The line's thread counts; any may read. */
final class LineCounters {
    /** Unit and checksum of a reply on a serial line. */
    private static final int AROUND_PDU = 3;
    /** With these a gateway says that its unit is not there (Modbus Application Protocol V1.1b3, 7). */
    private static final Set<Integer> OF_THE_GATEWAY = Set.of(10, 11);

    private final LongAdder connections = new LongAdder();
    private final LongAdder unasked = new LongAdder();
    /** What is of no unit. */
    private final OfUnit nobody = new OfUnit();

    private final Map<UnitId, OfUnit> units = new ConcurrentHashMap<>();

    private static final class OfUnit {
        private final LongAdder answered = new LongAdder();
        private final LongAdder refused = new LongAdder();
        private final LongAdder lostBehindGateway = new LongAdder();
        private final LongAdder silent = new LongAdder();
        private final Map<Fault, LongAdder> broken = new ConcurrentHashMap<>();
        private final Map<Heard, LongAdder> heard = new ConcurrentHashMap<>();
        private final Share shortReplies = new Share();
        private final Share longReplies = new Share();

        void count(Outcome outcome, int replyBytes) {
            if (outcome instanceof Outcome.Answered) {
                answered.increment();
                countLength(replyBytes, false);
            } else if (outcome instanceof Outcome.Refused refusal) {
                refused.increment();
                lostBehindGateway.add(OF_THE_GATEWAY.contains(refusal.code()) ? 1 : 0);
            } else if (outcome instanceof Outcome.Silent) {
                silent.increment();
            } else if (outcome instanceof Outcome.Broken wrong) {
                broken.computeIfAbsent(wrong.fault(), f -> new LongAdder()).increment();
                if (wrong.fault() == Fault.CHECKSUM) {
                    countLength(replyBytes, true);
                }
            }
        }

        private void countLength(int replyBytes, boolean spoilt) {
            if (replyBytes <= LineCounts.SHORT) {
                shortReplies.count(spoilt);
            } else if (replyBytes > LineCounts.LONG) {
                longReplies.count(spoilt);
            }
        }

        LineCounts counts(long connections, long unasked) {
            return new LineCounts(
                    answered.sum(),
                    refused.sum(),
                    silent.sum(),
                    sums(Fault.class, broken),
                    sums(Heard.class, heard),
                    shortReplies.share(),
                    longReplies.share(),
                    connections,
                    unasked);
        }

        private static <K extends Enum<K>> Map<K, Long> sums(Class<K> keys, Map<K, LongAdder> counters) {
            Map<K, Long> sums = new EnumMap<>(keys);
            counters.forEach((key, count) -> sums.put(key, count.sum()));
            return sums;
        }
    }

    private static final class Share {
        private final LongAdder whole = new LongAdder();
        private final LongAdder spoilt = new LongAdder();

        void count(boolean isSpoilt) {
            (isSpoilt ? spoilt : whole).increment();
        }

        ReplyShare share() {
            return new ReplyShare(whole.sum(), spoilt.sum());
        }
    }

    void opened() {
        connections.increment();
    }

    void foundUnasked() {
        unasked.increment();
    }

    /** A request that never left counts as nothing. */
    void count(Request request, Outcome outcome) {
        ofUnitCounters(request.unit()).count(outcome, AROUND_PDU + Pdu.replyBytes(request));
    }

    void heard(Overheard overheard) {
        UnitId unit = overheard.unit();
        OfUnit counters = unit == null ? nobody : ofUnitCounters(unit);
        counters.heard.computeIfAbsent(overheard.what(), h -> new LongAdder()).increment();
    }

    private OfUnit ofUnitCounters(UnitId unit) {
        return units.computeIfAbsent(unit, u -> new OfUnit());
    }

    LineCounts ofLine() {
        LineCounts sum = nobody.counts(connections.sum(), unasked.sum());
        for (OfUnit unit : units.values()) {
            sum = sum.plus(unit.counts(0, 0));
        }
        return sum;
    }

    LineCounts ofUnit(UnitId unit) {
        return units.getOrDefault(unit, new OfUnit()).counts(connections.sum(), unasked.sum());
    }

    /** How many replies came of a unit itself, be it refusals. */
    long replies(UnitId unit) {
        OfUnit counters = units.get(unit);
        return counters == null
                ? 0
                : counters.answered.sum() + counters.refused.sum() - counters.lostBehindGateway.sum();
    }

    long connections() {
        return connections.sum();
    }

    Map<UnitId, LineCounts> ofUnits() {
        Map<UnitId, LineCounts> all = new HashMap<>();
        units.forEach((unit, counters) -> all.put(unit, counters.counts(0, 0)));
        return all;
    }
}
