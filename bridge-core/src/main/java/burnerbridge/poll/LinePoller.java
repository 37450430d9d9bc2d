package burnerbridge.poll;

import burnerbridge.decode.Decoder;
import burnerbridge.line.LineTransport;
import burnerbridge.line.Outcome;
import burnerbridge.line.ReadRequest;
import burnerbridge.model.BridgeClock;
import burnerbridge.model.Reading;
import burnerbridge.model.Reason;
import burnerbridge.model.Registers;
import burnerbridge.model.Stamp;
import burnerbridge.plan.LinePlan;
import burnerbridge.plan.ReadBlock;
import burnerbridge.site.SitePoint;
import burnerbridge.table.Conditions;
import burnerbridge.table.ValueTable;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * Reads the blocks of one line when they are due. Stepped: each {@link #step} does at most one
 * transaction and says when the next is due, so that a thread can loop it and a test can step it. One
 * thread steps a poller; any may close it.
 */
public final class LinePoller implements AutoCloseable {
    private static final Logger LOG = LoggerFactory.getLogger(LinePoller.class);

    private static final long NOTHING_TO_DO = 3_600_000_000_000L;

    private final String line;
    private final LineTransport transport;
    private final ValueTable table;
    private final BridgeClock clock;
    private final List<Schedule> schedules = new ArrayList<>();
    private final Conditions conditions;
    private final ControllerHealths healths;
    private final ConnectPause connectPause = new ConnectPause();
    private final Set<Function> known = new HashSet<>();
    private final LineLog log;
    private volatile boolean closed;

    /** A function by which a controller has answered. */
    private record Function(int controller, int code) {
        static Function of(ReadBlock block) {
            return new Function(block.controller().ordinal(), block.function());
        }
    }

    public LinePoller(LinePlan plan, LineTransport transport, ValueTable table, BridgeClock clock) {
        this.line = plan.line().name().text();
        this.transport = transport;
        this.table = table;
        this.conditions = new Conditions(table);
        this.clock = clock;
        this.log = new LineLog(line);
        this.healths = new ControllerHealths(table, plan.line().replyTimeout());
        Set<Integer> probed = plan.blocks().stream()
                .filter(block -> !block.isOnce())
                .map(block -> block.controller().ordinal())
                .collect(Collectors.toSet());
        long now = clock.ticks();
        for (ReadBlock block : plan.blocks()) {
            // What a read clears must not be lost to a controller that probably does not answer.
            boolean mayProbe =
                    !block.isOnce() || !probed.contains(block.controller().ordinal());
            schedules.add(new Schedule(block, healths.of(block.controller()), transport, mayProbe, now));
        }
    }

    /**
     * Does the most overdue read, if any is due.
     *
     * @return the tick at which the next step has something to do
     */
    public long step() {
        long now = clock.ticks();
        if (schedules.isEmpty()) {
            return now + NOTHING_TO_DO;
        }
        if (connectPause.notBefore(now) != now) {
            return connectPause.notBefore(now);
        }
        Schedule next = next(now);
        long from = next.from(now);
        if (from - now > 0) {
            return from;
        }
        ReadRequest request = next.next(now);
        Outcome outcome = transport.read(request);
        if (!closed) {
            settle(next, request, outcome);
        }
        long then = clock.ticks();
        return connectPause.notBefore(next(then).from(then));
    }

    /** Of those that may be asked, the longest overdue: where many wait for one moment, none waits for ever. */
    private Schedule next(long now) {
        Schedule best = schedules.get(0);
        long bestFrom = best.from(now);
        for (Schedule schedule : schedules) {
            long from = schedule.from(now);
            boolean bothMayBe = from - now <= 0 && bestFrom - now <= 0;
            if (bothMayBe ? schedule.due() - best.due() < 0 : from - bestFrom < 0) {
                best = schedule;
                bestFrom = from;
            }
        }
        return best;
    }

    private void settle(Schedule asked, ReadRequest request, Outcome outcome) {
        LOG.trace("line {}: {} -> {}", line, request, outcome);
        if (outcome instanceof Outcome.Answered answered) {
            lineUp();
            asked.health.answered(clock.now());
            known.add(Function.of(asked.block));
            gathered(asked, answered);
            return;
        }
        asked.gathering.clear();
        if (outcome instanceof Outcome.NotConnected notConnected) {
            lineDown(asked, notConnected);
            return;
        }
        lineUp();
        if (outcome instanceof Outcome.Refused refused) {
            refused(asked, request, refused);
        } else if (outcome instanceof Outcome.Broken broken) {
            LOG.debug("line {}: {}: {}", line, request, broken.what());
            asked.health.silent("its replies are wrong: " + broken.what(), clock.now());
            log.unanswered(asked, "wrong replies: " + broken.what());
        } else {
            asked.health.silent("no reply to " + request, clock.now());
            log.unanswered(asked, "no reply");
        }
    }

    private void gathered(Schedule asked, Outcome.Answered answered) {
        Optional<Outcome.Answered> whole = asked.gathering.take(answered);
        if (whole.isPresent()) {
            asked.gathering.clear();
            log.answered(asked);
            publish(asked.block, whole.get());
        } else if (asked.gathering.isGivenUp()) {
            asked.gathering.clear();
            log.unanswered(asked, "no two replies agree");
        } else {
            // The rest follows at once, before it can have changed.
            asked.dueAt(clock.ticks());
        }
    }

    private void publish(ReadBlock block, Outcome.Answered answered) {
        // Of one reply, what others hang on comes before them, so that they are held against the newest.
        for (boolean conditional : new boolean[] {false, true}) {
            for (SitePoint point : block.points()) {
                if (conditions.isConditional(point) == conditional) {
                    publish(block, point, notOlderThanAllowed(point, decoded(block, point, answered)));
                }
            }
        }
    }

    private void publish(ReadBlock block, SitePoint point, Reading reading) {
        List<SitePoint> dependents = conditions.dependents(point);
        if (dependents.isEmpty()) {
            table.publish(point, conditions.held(point, reading));
            return;
        }
        List<SitePoint> closed =
                dependents.stream().filter(d -> !conditions.isMet(d)).toList();
        table.publish(point, reading);
        dependents.forEach(conditions::settle);
        closed.stream().filter(conditions::isMet).forEach(opened -> hasten(opened, block));
    }

    /** What was read before its condition held is of no use, so it is read again as soon as it does. */
    private void hasten(SitePoint opened, ReadBlock justRead) {
        schedules.stream()
                .filter(s -> s.block != justRead && s.block.points().contains(opened))
                .forEach(s -> s.retryAt(clock.ticks()));
    }

    private Reading decoded(ReadBlock block, SitePoint point, Outcome.Answered answered) {
        Registers raw = answered.data()
                .slice(block.offsetOf(point), point.definition().format().width());
        Reading before = table.reading(point);
        Optional<SitePoint> decimals =
                point.definition().consistency().scaleBy().flatMap(block::point);
        return decimals.isPresent()
                ? Decoder.decodeScaledBy(
                        point.definition(), raw, decoded(block, decimals.get(), answered), answered.askedAt(), before)
                : Decoder.decode(point.definition(), raw, answered.askedAt(), before);
    }

    /** A reply may take longer than its reading holds; then it is never shown as good, not for a moment. */
    private Reading notOlderThanAllowed(SitePoint point, Reading reading) {
        Stamp askedAt = reading.askedAt();
        boolean old = askedAt != null
                && askedAt.ageAt(clock.ticks())
                        >= point.definition().staleAfter().toNanos();
        return old ? reading.staled(Reason.NO_REPLY) : reading;
    }

    private void refused(Schedule asked, ReadRequest request, Outcome.Refused refused) {
        if (Refusal.of(refused.code()) != Refusal.LOST_BEHIND_GATEWAY) {
            log.answered(asked);
        }
        switch (Refusal.of(refused.code())) {
            case BUSY -> {
                // It is there but cannot answer now: the readings keep their ages.
                asked.health.busy(refused.code(), clock.now());
                asked.retryAt(asked.health.notBefore(clock.ticks()));
                LOG.debug("line {}: {} is busy (exception {})", line, request, refused.code());
            }
            case LOST_BEHIND_GATEWAY ->
                asked.health.silent("its gateway cannot reach it (exception " + refused.code() + ")", clock.now());
            case NO_FUNCTION -> {
                asked.health.answered(clock.now());
                noFunction(asked, refused);
            }
            case REFUSED -> {
                asked.health.answered(clock.now());
                log.refused(asked.block, refused);
                markRefused(asked.block, refused);
            }
        }
    }

    /**
     * One refusal stands for all reads by that function, and one read for all of them finds out whether it is
     * still so. A function that has been answered before is there, whatever one block of it says.
     */
    private void noFunction(Schedule asked, Outcome.Refused refused) {
        if (known.contains(Function.of(asked.block))) {
            log.refused(asked.block, refused);
            markRefused(asked.block, refused);
            return;
        }
        List<Schedule> same =
                schedules.stream().filter(s -> s.isReadLike(asked)).toList();
        long again = clock.ticks()
                + same.stream().mapToLong(s -> s.block.every().toNanos()).min().orElseThrow();
        log.noFunction(asked.block, same.size(), refused);
        for (Schedule schedule : same) {
            schedule.postponeTo(again);
            markRefused(schedule.block, refused);
        }
    }

    private void markRefused(ReadBlock block, Outcome.Refused refused) {
        for (SitePoint point : block.points()) {
            publish(block, point, Reading.refused(refused.code(), refused.askedAt(), table.reading(point)));
        }
    }

    private void lineDown(Schedule asked, Outcome.NotConnected notConnected) {
        Stamp now = clock.now();
        if (connectPause.failed(now.ticks())) {
            log.notConnected(notConnected);
        }
        // The read was never asked: it stays the first to be tried.
        asked.dueAt(now.ticks());
        healths.lineDown(notConnected.why(), now);
    }

    private void lineUp() {
        if (connectPause.connected()) {
            log.connected();
        }
    }

    /** Ends a transaction under way and settles no more of them. */
    @Override
    public void close() {
        closed = true;
        transport.close();
    }
}
