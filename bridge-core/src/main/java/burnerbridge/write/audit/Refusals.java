package burnerbridge.write.audit;

import java.time.Duration;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalLong;

/**
 * Refusals by who was refused what and why: the first of each at once, then a count a minute. Memory and records are
 * bounded whoever asks; what finds no place of its own is counted with all others. Belongs to one thread.
 */
final class Refusals {
    static final long MINUTE = Duration.ofMinutes(1).toNanos();
    /** How many are told apart at a time. */
    static final int MOST_KEYS = 256;

    static final String OTHERS = "more refusals, of askers, points and questions that are not listed one by one";

    private final int mostRecords;
    private final Map<Key, Tally> known = new LinkedHashMap<>();
    private long others;
    private int left;
    private long windowEnds;
    private boolean open;

    private record Key(String source, String point, String code) {}

    private static final class Tally {
        private AuditEntry last;
        private long count;

        private Tally(AuditEntry last) {
            this.last = last;
        }
    }

    Refusals(int mostRecords) {
        this.mostRecords = mostRecords;
        this.left = mostRecords;
    }

    /** What is to be recorded of a refusal at once; empty where it is counted. */
    Optional<AuditEntry> refused(AuditEntry entry, long now) {
        if (!open) {
            open = true;
            windowEnds = now + MINUTE;
        }
        Key key = new Key(entry.text(Detail.SOURCE), entry.text(Detail.POINT), entry.text(Detail.CODE));
        Tally tally = known.get(key);
        if (tally != null) {
            tally.last = entry;
            tally.count++;
            return Optional.empty();
        }
        if (known.size() >= MOST_KEYS || left <= 0) {
            others++;
            return Optional.empty();
        }
        left--;
        known.put(key, new Tally(entry));
        return Optional.of(entry);
    }

    /** The counts of a minute that has passed; none before. */
    List<AuditEntry> counts(long now) {
        return open && now - windowEnds >= 0 ? counts() : List.of();
    }

    /** What was counted so far, whether the minute has passed or not; the next minute begins without them. */
    List<AuditEntry> counts() {
        // Who was quiet for a minute is told at once when he comes again.
        known.values().removeIf(tally -> tally.count == 0);
        List<Tally> most = new ArrayList<>(known.values());
        most.sort(Comparator.comparingLong((Tally tally) -> tally.count).reversed());
        int own = Math.min(most.size(), mostRecords / 2);
        List<AuditEntry> entries = new ArrayList<>();
        for (Tally tally : most.subList(0, own)) {
            entries.add(counted(tally.last, tally.count));
        }
        others += most.subList(own, most.size()).stream()
                .mapToLong(tally -> tally.count)
                .sum();
        if (others > 0) {
            entries.add(AuditEntry.of(AuditKind.REFUSALS).said(OTHERS).count(others));
        }
        known.values().forEach(tally -> tally.count = 0);
        others = 0;
        open = !known.isEmpty();
        windowEnds += MINUTE;
        left = mostRecords - entries.size();
        return entries;
    }

    private static AuditEntry counted(AuditEntry last, long count) {
        return AuditEntry.of(AuditKind.REFUSALS)
                .from(last.text(Detail.SOURCE))
                .point(last.text(Detail.POINT))
                .decided(last.text(Detail.CODE), last.text(Detail.SENTENCE))
                .count(count);
    }

    /** One that should have been recorded and could not be is counted on. */
    void notRecorded(AuditEntry entry, long now) {
        Object count = entry.details().get(Detail.COUNT);
        others += count instanceof Long number ? number : 1;
        if (!open) {
            open = true;
            windowEnds = now + MINUTE;
        }
    }

    /** When counts are due; empty where there is nothing to count. */
    OptionalLong dueAt() {
        return open ? OptionalLong.of(windowEnds) : OptionalLong.empty();
    }
}
