package burnerbridge.poll;

import burnerbridge.plan.LinePlan;
import burnerbridge.plan.ReadBlock;
import burnerbridge.poll.agenda.Agenda;
import burnerbridge.poll.agenda.Controller;
import burnerbridge.poll.agenda.Controllers;
import burnerbridge.poll.agenda.Schedule;
import burnerbridge.poll.pace.Phases;
import burnerbridge.poll.pace.Rhythm;
import burnerbridge.site.LineDefinition;
import burnerbridge.site.SitePoint;
import java.time.Duration;
import java.util.ArrayList;
import java.util.Collections;
import java.util.Comparator;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.function.Predicate;

/**
 * Puts the cheapest reads in the place of those that a controller has, while they are made. What a plan cannot know
 * stays as it is: reads that are refused, busy or not answered, and those that were taken apart because of it.
 */
final class Replan {
    private final LineDefinition line;
    private final Controllers controllers;
    private final Agenda agenda;

    Replan(LineDefinition line, Controllers controllers, Agenda agenda) {
        this.line = line;
        this.controllers = controllers;
        this.agenda = agenda;
    }

    /** Whether all reads of the controller were planned anew; of the rest nothing changed. */
    boolean make(Controller controller, Duration turnaround, long now) {
        List<Schedule> before =
                controller.reads().stream().filter(read -> !read.stays()).toList();
        boolean whole = before.size() == controller.reads().size();
        List<ReadBlock> planned = LinePlan.reads(
                line, points(before, read -> true), points(controller.reads(), Schedule::hasTrouble), turnaround);
        Set<ReadBlock> wanted = new HashSet<>(planned);
        List<Schedule> gone = new ArrayList<>(before);
        gone.removeIf(read -> wanted.remove(read.block()));
        List<ReadBlock> fresh = planned.stream().filter(wanted::contains).toList();
        if (!gone.isEmpty()) {
            replace(gone, fresh, now);
        }
        return whole;
    }

    private static List<SitePoint> points(List<Schedule> reads, Predicate<Schedule> which) {
        return reads.stream()
                .filter(which)
                .flatMap(read -> read.block().points().stream())
                .sorted(Comparator.comparingInt(SitePoint::ordinal))
                .toList();
    }

    /** Whoever takes over from a read of the same interval has its turns; the others have turns between all others. */
    private void replace(List<Schedule> gone, List<ReadBlock> fresh, long now) {
        gone.forEach(read -> agenda.replace(read, List.of()));
        Set<Schedule> left = new HashSet<>(gone);
        List<ReadBlock> more = new ArrayList<>();
        for (ReadBlock block : fresh) {
            Optional<Schedule> heir = before(block, gone).stream()
                    .filter(read -> read.block().every().equals(block.every()) && left.remove(read))
                    .findFirst();
            heir.ifPresentOrElse(read -> add(block, gone, read.rhythm().turn()), () -> more.add(block));
        }
        more.forEach(block -> add(block, gone, Phases.between(block.every(), controllers.turns(block.every()), now)));
    }

    /** Those that its points were in. */
    private static List<Schedule> before(ReadBlock block, List<Schedule> gone) {
        return gone.stream()
                .filter(read -> !Collections.disjoint(read.block().points(), block.points()))
                .toList();
    }

    /** It is due when the first of its points was to be read next, so that none waits for longer than it did. */
    private void add(ReadBlock block, List<Schedule> gone, long turn) {
        List<Schedule> before = before(block, gone);
        Schedule first = before.stream().min(Schedule.BY_DUE).orElseThrow();
        Rhythm rhythm = first.rhythm().fork(block.every(), turn, first.due());
        agenda.add(Schedule.following(before, block, rhythm));
    }
}
