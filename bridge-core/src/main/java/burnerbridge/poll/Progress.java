package burnerbridge.poll;

import burnerbridge.poll.agenda.LineLog;
import burnerbridge.poll.agenda.Schedule;
import burnerbridge.poll.pace.Behind;
import burnerbridge.poll.pace.IntervalPace;
import burnerbridge.poll.pace.Paces;
import java.util.Comparator;
import java.util.Optional;

/** Whether a line makes its reads as often as they are wanted. */
final class Progress {
    private final LineLog log;
    private final Paces paces;
    private final Behind behind;

    Progress(LineLog log, long now) {
        this.log = log;
        this.paces = new Paces(now);
        this.behind = new Behind(now);
    }

    Paces paces() {
        return paces;
    }

    /** For any thread. */
    boolean isBehind() {
        return behind.isBehind();
    }

    /**
     * A request was made.
     *
     * @param leftOut turns before this one that were left out, since the line was busy with others
     */
    void asked(Schedule read, long leftOut, long took, long now) {
        read.pace().asked(took, read.gathering().isFresh(), now);
        read.pace().skipped(leftOut);
        behind.turn(leftOut, now).ifPresent(change -> log.pace(change, worst(now)));
    }

    /** A lost controller skips nothing, so that it is never the one. */
    private Optional<IntervalPace> worst(long now) {
        return paces.at(now).stream()
                .filter(pace -> pace.skipped() > 0 && pace.achieved().isPresent())
                .max(Comparator.comparingLong(IntervalPace::skipped));
    }
}
