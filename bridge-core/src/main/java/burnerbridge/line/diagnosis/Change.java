package burnerbridge.line.diagnosis;

import burnerbridge.line.Heard;
import burnerbridge.line.LineCounts;
import burnerbridge.site.UnitId;
import java.time.Duration;
import java.util.List;
import java.util.Map;

/**
 * What was counted in the time looked at.
 *
 * @param longer of the line over a longer time, for what needs many replies
 * @param askedByOthers whom requests were for that are not ours, in order
 * @param units those that were asked often enough to say something, each over a time of its own
 * @param anybodyInDoubt whether a unit that was heard before was not asked often enough since
 */
record Change(Part line, Part longer, List<UnitId> askedByOthers, Map<UnitId, Part> units, boolean anybodyInDoubt) {
    /** Fewer requests say nothing. */
    static final int FEWEST = 5;

    /** Counts of some time. */
    record Part(LineCounts counts, Duration time) {
        /** For people: {@code 45 s}, {@code 3 min}. */
        String words() {
            long seconds = Math.max(1, time.toSeconds());
            return seconds < 120 ? seconds + " s" : time.toMinutes() + " min";
        }

        boolean saysSomething() {
            return counts.requests() >= FEWEST;
        }

        /** A reply after its time is no reply, but whoever sends it is there. */
        boolean isSilent() {
            return counts.silent() == counts.requests() && counts.heard(Heard.LATE_REPLY) == 0;
        }
    }

    Change {
        askedByOthers = List.copyOf(askedByOthers);
        units = Map.copyOf(units);
    }

    /** Whether somebody on the line was heard in this time. */
    boolean isAnybodyHeard() {
        return units.values().stream().anyMatch(unit -> !unit.isSilent()) || !line.isSilent();
    }
}
