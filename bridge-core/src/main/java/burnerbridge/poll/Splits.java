package burnerbridge.poll;

import burnerbridge.line.Outcome.Refused;
import burnerbridge.model.BridgeClock;
import burnerbridge.plan.ReadBlock;
import burnerbridge.poll.agenda.Agenda;
import burnerbridge.poll.agenda.Family;
import burnerbridge.poll.agenda.LineLog;
import burnerbridge.poll.agenda.Schedule;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;

/** Takes reads apart to find out which of their points are refused, and puts together what was not. */
final class Splits {
    private final Agenda agenda;
    private final LineLog log;
    private final BridgeClock clock;

    Splits(Agenda agenda, LineLog log, BridgeClock clock) {
        this.agenda = agenda;
        this.log = log;
        this.clock = clock;
    }

    /** A read was refused; whether it is read in parts from now on, so that nothing is known of its points yet. */
    boolean split(Schedule asked, Refused reply) {
        List<ReadBlock> halves = asked.block().halves();
        if (halves.isEmpty()) {
            return false;
        }
        Family family = asked.family().orElseGet(() -> {
            log.split(asked.block(), reply);
            return new Family(asked.block());
        });
        List<Schedule> parts = forks(asked, halves);
        agenda.replace(asked, parts);
        family.split(asked, parts);
        return true;
    }

    private List<Schedule> forks(Schedule like, List<ReadBlock> blocks) {
        long now = clock.ticks();
        return blocks.stream().map(block -> like.fork(block, now)).toList();
    }

    void refused(Schedule part) {
        part.family().ifPresent(family -> {
            family.refused(part);
            join(family);
        });
    }

    void answered(Schedule part) {
        part.family().ifPresent(family -> {
            family.answered(part);
            join(family);
        });
    }

    private void join(Family family) {
        List<Schedule> apart = family.apart();
        if (!apart.isEmpty()) {
            List<Schedule> runs = forks(apart.get(0), family.runs());
            // They have just been read.
            runs.forEach(run -> run.rhythm().nextTurn(clock.ticks()));
            replace(apart, runs);
            family.joined(apart, runs);
        }
    }

    /** Reads as a whole again what was taken apart. */
    void restore(List<Schedule> reads) {
        Set<Family> families = new LinkedHashSet<>();
        reads.stream().map(Schedule::family).flatMap(Optional::stream).forEach(families::add);
        for (Family family : families) {
            List<Schedule> members = family.members();
            Schedule whole = members.get(0).fork(family.whole(), clock.ticks());
            whole.leave();
            replace(members, List.of(whole));
        }
    }

    private void replace(List<Schedule> gone, List<Schedule> by) {
        List<Schedule> added = new ArrayList<>(by);
        for (Schedule read : gone) {
            agenda.replace(read, added);
            added.clear();
        }
    }
}
