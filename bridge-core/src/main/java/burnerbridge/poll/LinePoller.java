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
import burnerbridge.table.ValueTable;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
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
    private final ControllerHealths healths;
    private final ConnectPause connectPause = new ConnectPause();
    private final Set<ToldRefusal> toldRefusals = new HashSet<>();
    private volatile boolean closed;

    /** That a point is refused with a code was told. */
    private record ToldRefusal(int point, int code) {}

    /** When a block is due next. */
    private static final class Schedule {
        private final ReadBlock block;
        private final ControllerHealth health;
        private final Gathering gathering;
        private long due;
        private long dueAfter;
        private int unanswered;

        Schedule(ReadBlock block, ControllerHealth health, long due) {
            this.block = block;
            this.health = health;
            this.gathering = new Gathering(block);
            this.due = due;
        }

        /** What to ask now; with the first request of a turn the next turn is set. */
        ReadRequest next(long now) {
            if (gathering.isFresh()) {
                dueAfter = later(due + block.every().toNanos(), now);
            }
            due = dueAfter;
            return gathering.next();
        }

        void answered(String line) {
            if (unanswered >= ControllerHealth.SILENCES_UNTIL_LOST) {
                LOG.info("line {}: {} is answered again", line, names());
            }
            unanswered = 0;
        }

        /** A read that alone goes unanswered is told once; where all do, the controller is lost and told as such. */
        void unanswered(String line, String how) {
            unanswered++;
            if (unanswered == ControllerHealth.SILENCES_UNTIL_LOST && !health.isLost()) {
                LOG.warn("line {}: {}: {} in a row of {} tries", line, names(), how, unanswered);
            }
        }

        private String names() {
            SitePoint first = block.points().get(0);
            return first.id() + " at " + first.definition().addressText();
        }

        /** A lost controller is asked at the pace of its probes, however often its points are wanted. */
        long dueAt() {
            return health.isLost() ? later(due, health.nextProbe()) : due;
        }
    }

    public LinePoller(LinePlan plan, LineTransport transport, ValueTable table, BridgeClock clock) {
        this.line = plan.line().name().text();
        this.transport = transport;
        this.table = table;
        this.clock = clock;
        this.healths = new ControllerHealths(table, plan.line().replyTimeout());
        long now = clock.ticks();
        for (ReadBlock block : plan.blocks()) {
            schedules.add(new Schedule(block, healths.of(block.controller()), now));
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
        Schedule next = earliest();
        if (next.dueAt() - now > 0) {
            return next.dueAt();
        }
        ReadRequest request = next.next(now);
        Outcome outcome = transport.read(request);
        if (!closed) {
            settle(next, request, outcome);
        }
        return connectPause.notBefore(earliest().dueAt());
    }

    /** Ticks may overflow, so they are compared by their difference. */
    private static long later(long one, long other) {
        return one - other >= 0 ? one : other;
    }

    private Schedule earliest() {
        Schedule first = schedules.get(0);
        for (Schedule schedule : schedules) {
            if (schedule.dueAt() - first.dueAt() < 0) {
                first = schedule;
            }
        }
        return first;
    }

    private void settle(Schedule asked, ReadRequest request, Outcome outcome) {
        LOG.trace("line {}: {} -> {}", line, request, outcome);
        if (outcome instanceof Outcome.Answered answered) {
            lineUp();
            asked.health.answered(clock.now());
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
            asked.unanswered(line, "wrong replies: " + broken.what());
            asked.health.silent("its replies are wrong: " + broken.what(), clock.now());
        } else {
            asked.unanswered(line, "no reply");
            asked.health.silent("no reply to " + request, clock.now());
        }
    }

    private void gathered(Schedule asked, Outcome.Answered answered) {
        Optional<Outcome.Answered> whole = asked.gathering.take(answered);
        if (whole.isPresent()) {
            asked.gathering.clear();
            asked.answered(line);
            publish(asked.block, whole.get());
        } else if (asked.gathering.isGivenUp()) {
            asked.gathering.clear();
            asked.unanswered(line, "no two replies agree");
        } else {
            // The rest follows at once, before it can have changed.
            asked.due = clock.ticks();
        }
    }

    private void publish(ReadBlock block, Outcome.Answered answered) {
        for (SitePoint point : block.points()) {
            table.publish(point, notOlderThanAllowed(point, decoded(block, point, answered)));
        }
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
        switch (Refusal.of(refused.code())) {
            case BUSY -> {
                // It is there but cannot answer now: the reading keeps its age.
                asked.health.answered(clock.now());
                LOG.debug("line {}: {} is busy (exception {})", line, request, refused.code());
            }
            case LOST_BEHIND_GATEWAY ->
                asked.health.silent("its gateway cannot reach it (exception " + refused.code() + ")", clock.now());
            case REFUSED -> {
                asked.health.answered(clock.now());
                markRefused(asked.block, refused);
            }
        }
    }

    private void markRefused(ReadBlock block, Outcome.Refused refused) {
        for (SitePoint point : block.points()) {
            Reading before = table.reading(point);
            // Told once for each code: a controller that refuses now and then must not fill the log.
            if (toldRefusals.add(new ToldRefusal(point.ordinal(), refused.code()))) {
                LOG.warn(
                        "line {}: {} at {} is refused with exception {} ({})",
                        line,
                        point.id(),
                        point.definition().addressText(),
                        refused.code(),
                        Refusal.meaning(refused.code()));
            }
            table.publish(point, Reading.refused(refused.code(), refused.askedAt(), before));
        }
    }

    private void lineDown(Schedule asked, Outcome.NotConnected notConnected) {
        Stamp now = clock.now();
        if (connectPause.failed(now.ticks())) {
            LOG.warn("line {}: not connected: {}; trying again until it is", line, notConnected.why());
        }
        // The read was never asked: it stays the first to be tried.
        asked.due = now.ticks();
        healths.lineDown(notConnected.why(), now);
    }

    private void lineUp() {
        if (connectPause.connected()) {
            LOG.info("line {}: connected", line);
        }
    }

    /** Ends a transaction under way and settles no more of them. */
    @Override
    public void close() {
        closed = true;
        transport.close();
    }
}
