package burnerbridge.line.diagnosis;

import burnerbridge.site.UnitId;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/**
 * One thing that a line shows, and what to look at. What to look at is common practice, not a proof.
 *
 * @param unit the unit that shows it, while others on the line do not; none where the line as a whole does
 * @param seen what was seen, in numbers
 * @param lookAt what to look at, without a full stop
 */
public record Finding(Kind kind, @Nullable UnitId unit, String seen, String lookAt) {

    private static final Map<Kind, Set<Kind>> EXPLAINED = Map.of(
            Kind.NOTHING_HEARD, Set.of(Kind.UNIT_SILENT),
            Kind.CHECKSUM_RISES_WITH_LENGTH, Set.of(Kind.CHECKSUM),
            Kind.DOUBLED_UNIT, Set.of(Kind.CHECKSUM),
            Kind.SECOND_MASTER, Set.of(Kind.OTHERS_REPLY, Kind.STRAY_BYTES, Kind.LATE_REPLY, Kind.DOUBLED_UNIT));

    /** What a line can show. Not every kind of line can show everything. */
    public enum Kind {
        /** No unit was heard at all. */
        NOTHING_HEARD,
        /** A unit is silent while others are heard. */
        UNIT_SILENT,
        /** Our own bytes come back, or do not where the line is said to echo. */
        ECHO,
        /** Bytes that are no frames. */
        FRAMING,
        /** Bytes before replies or between transactions that belong to nothing. */
        STRAY_BYTES,
        /** Replies without their first bytes. */
        BEGINNING_LOST,
        /** Wrong checksums. */
        CHECKSUM,
        /** Wrong checksums, and clearly more of them in long replies than in short ones. */
        CHECKSUM_RISES_WITH_LENGTH,
        /** Replies that were cut off or had another length than was asked for. */
        LENGTH,
        /** Two replies to one request, after each other or at once. */
        DOUBLED_UNIT,
        /** Whole replies that belong to other requests. */
        OTHERS_REPLY,
        /** Requests that are not ours. */
        SECOND_MASTER,
        /** Replies after their time. */
        LATE_REPLY,
        /** The connection or port ended instead of a reply. */
        ENDED
    }

    /** Whether the other is nothing but another sight of this, which says more. */
    boolean explains(Finding other) {
        return EXPLAINED.getOrDefault(kind, Set.of()).contains(other.kind)
                && (unit == null || other.unit == null || unit.equals(other.unit));
    }

    /** The whole sentence, for people. */
    public String sentence() {
        return seen + ": look at " + lookAt;
    }
}
