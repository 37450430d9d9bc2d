package burnerbridge.poll;

import burnerbridge.line.LineCounts;
import burnerbridge.line.LineTransport;
import burnerbridge.line.Outcome;
import burnerbridge.line.ReadRequest;
import burnerbridge.line.diagnosis.Finding;
import burnerbridge.model.BridgeClock;
import burnerbridge.model.Stamp;
import burnerbridge.plan.LinePlan;
import burnerbridge.poll.ToolReads.Question;
import burnerbridge.poll.agenda.Agenda;
import burnerbridge.poll.agenda.Controllers;
import burnerbridge.poll.agenda.LineLog;
import burnerbridge.poll.agenda.Schedule;
import burnerbridge.poll.agenda.Trouble;
import burnerbridge.poll.pace.ConnectPause;
import burnerbridge.poll.pace.IntervalPace;
import burnerbridge.site.ControllerDefinition;
import burnerbridge.site.LineDefinition;
import burnerbridge.site.SitePoint;
import burnerbridge.site.UnitId;
import burnerbridge.table.ValueTable;
import java.time.Duration;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Queue;
import java.util.concurrent.ConcurrentLinkedQueue;
import java.util.stream.Collectors;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * Reads the blocks of one line when they are due, the first to be late first. Stepped: each {@link #step} does at
 * most one transaction, or one piece of the line's errand, and says when the next is due, so that a thread can loop it
 * and a test can step it. One thread steps a poller; all else is for any.
 */
public final class LinePoller implements AutoCloseable {
    private static final Logger LOG = LoggerFactory.getLogger(LinePoller.class);

    private static final long NOTHING_TO_DO = 3_600_000_000_000L;

    private final LineDefinition line;
    private final LineTransport transport;
    private final BridgeClock clock;
    private final Controllers controllers;
    private final Agenda agenda;
    private final Settlement settlement;
    private final Progress progress;
    private final Learning learning;
    private final ToolReads tools;
    private final Errands errands;
    private final ConnectPause connectPause = new ConnectPause();
    private final LineLog log;
    private final Queue<ControllerDefinition> anew = new ConcurrentLinkedQueue<>();
    private boolean toolsTurn = true;
    private volatile LineLink link = LineLink.AT_START;
    private volatile LinePlan plan;
    private volatile boolean closed;

    public LinePoller(LinePlan plan, LineTransport transport, ValueTable table, BridgeClock clock) {
        long now = clock.ticks();
        this.line = plan.line();
        this.plan = plan;
        this.transport = transport;
        this.clock = clock;
        this.log = new LineLog(line.name().text());
        this.progress = new Progress(log, now);
        this.controllers = new Controllers(plan, transport, table, log, progress.paces(), now);
        Trouble trouble = new Trouble(now);
        this.agenda = new Agenda(controllers.all(), line.replyTimeout(), trouble);
        this.learning = new Learning(plan, controllers, agenda, log, now);
        this.settlement = new Settlement(controllers, agenda, trouble, new Readings(table, clock), log, clock);
        this.tools = new ToolReads(of(line, table.controllers()), line.replyTimeout(), now);
        this.errands = new Errands(line.name().text(), clock);
    }

    private static List<ControllerDefinition> of(LineDefinition line, List<ControllerDefinition> all) {
        return all.stream().filter(controller -> controller.isOn(line.name())).toList();
    }

    /**
     * Gives the line work to do besides its polls; to be called before the first step. It is done while the line is
     * connected: a piece between two polls, and before what tools ask for.
     */
    public void errand(LineErrand errand) {
        errands.are(errand);
    }

    /** @param wakes called from any thread when the errand was woken, to make the line's thread take its next step */
    public void whenErrandWoken(Runnable wakes) {
        errands.whenWoken(wakes);
    }

    /** The errand has something to do sooner than it said: lets the line's thread take its next step now. */
    public void errandWoken() {
        errands.woken();
    }

    /**
     * Does the read that is the first to be late, if any is due, or a piece of the errand, or a read that a tool asks for.
     *
     * @return the tick at which the next step may have something to do; not in the future where this one had
     */
    public long step() {
        askAnew();
        boolean planned = learning.look(clock.ticks());
        long due = stepOnce(clock.ticks());
        if (agenda.hasChanged() || planned) {
            plan = learning.plan();
        }
        return due;
    }

    private long stepOnce(long now) {
        long connect = connectPause.notBefore(now);
        if (connect - now > 0) {
            return connect;
        }
        if (connectPause.isConnected() && errands.isNext(now)) {
            runErrand(now);
            return clock.ticks();
        }
        if (toolsTurn && toolAsks(now)) {
            return clock.ticks();
        }
        toolsTurn = true;
        errands.newTurn();
        Optional<Schedule> next = agenda.take(now);
        if (next.isEmpty()) {
            return nothingDue(now);
        }
        try {
            ask(next.get(), now);
        } finally {
            agenda.putBack();
        }
        return connectPause.notBefore(clock.ticks());
    }

    private void askAnew() {
        for (ControllerDefinition next = anew.poll(); next != null; next = anew.poll()) {
            controllers.find(next).ifPresent(settlement::askAnew);
        }
    }

    private long nothingDue(long now) {
        long soonest = agenda.soonest().orElse(now + NOTHING_TO_DO);
        Optional<Long> tool = tools.next().map(question -> readyAt(question, now));
        Optional<Long> errand = connectPause.isConnected() ? errands.readyAt(now) : Optional.empty();
        return sooner(errand, sooner(tool, soonest));
    }

    /** Ticks may overflow, so they are compared by their difference. */
    private static long sooner(Optional<Long> one, long other) {
        return one.isPresent() && one.get() - other < 0 ? one.get() : other;
    }

    /** What its writes and reads came to is its own matter; but who answered them is there. */
    private void runErrand(long now) {
        Map<UnitId, Long> before = controllers.lost().stream()
                .map(controller -> controller.definition().unit())
                .distinct()
                .collect(Collectors.toMap(unit -> unit, transport::replies));
        List<SitePoint> changed = errands.run();
        if (closed) {
            return;
        }
        progress.paces().otherwise(clock.ticks() - now, clock.ticks());
        before.forEach((unit, replies) -> {
            if (transport.replies(unit) > replies) {
                settlement.answeredBesides(unit);
            }
        });
        changed.forEach(settlement::readSoon);
    }

    private void ask(Schedule read, long now) {
        ReadRequest request = read.request();
        boolean probe = read.controller().health().isLost();
        // Not the line was busy with others then, but this one with itself.
        boolean excused = probe || read.controller().health().isBusy() || read.isUnanswered();
        boolean sure = !read.controller().health().isSilent() && !read.isUnanswered();
        long leftOut = read.asked(now);
        Outcome outcome = transport.read(request);
        long took = clock.ticks() - now;
        LOG.trace("line {}: {} -> {}", line.name(), request, outcome);
        if (closed || isDown(outcome)) {
            // The read was never asked: it stays the first to be tried.
            read.gathering().clear();
            read.dueAt(now);
            return;
        }
        progress.asked(read, excused ? 0 : leftOut, took, clock.ticks());
        if (probe) {
            read.controller().probed(took, clock.ticks());
        }
        if (sure && outcome instanceof Outcome.Answered answered) {
            learning.answered(read.block().controller(), request, answered, now, now + took);
        }
        settlement.settle(read, request, outcome, now);
    }

    private boolean toolAsks(long now) {
        Optional<Question> question = tools.next().filter(next -> readyAt(next, now) - now <= 0);
        question.ifPresent(next -> ask(next, now));
        return question.isPresent();
    }

    /** What must wait until no late reply is in its way waits for no tool. */
    private long readyAt(Question question, long now) {
        long from = Schedule.later(tools.enoughAt(now), transport.readyAt(question.request(), now));
        return agenda.isAnyKeptWaiting() ? Schedule.later(from, agenda.soonest().orElse(from)) : from;
    }

    private void ask(Question question, long now) {
        toolsTurn = false;
        try {
            Outcome outcome = transport.read(question.request());
            LOG.trace("line {}: {}, for a tool -> {}", line.name(), question.request(), outcome);
            if (!closed && !isDown(outcome)) {
                settlement.settleForTool(question.request(), outcome, now);
            }
            question.answer().complete(outcome);
        } finally {
            tools.over(question, clock.ticks() - now, clock.ticks());
        }
    }

    /** Whether there is no connection; settles that there is one again. */
    private boolean isDown(Outcome outcome) {
        Stamp now = clock.now();
        if (outcome instanceof Outcome.NotConnected notConnected) {
            boolean first = connectPause.failed(now.ticks());
            if (first) {
                log.notConnected(notConnected);
            }
            link = LineLink.down(notConnected.why(), first ? now : link.since());
            controllers.lineDown(notConnected.why(), now);
            return true;
        }
        if (connectPause.connected()) {
            link = LineLink.up(now);
            log.connected();
            controllers.all().forEach(controller -> agenda.restart(controller, now.ticks()));
        }
        return false;
    }

    /**
     * The reads as they are made now: those that were refused as a whole are made in parts, and where the turnaround
     * of a controller turned out to be another, they are those of a plan that was made anew.
     */
    public LinePlan plan() {
        return plan;
    }

    /** The turnaround of a controller as it was measured; empty on Modbus TCP, and before it answered nine times. */
    public Optional<Duration> turnaround(ControllerDefinition controller) {
        return learning.learned(controller);
    }

    /** How the reads of each controller and interval are made. */
    public List<IntervalPace> paces() {
        return progress.paces().at(clock.ticks());
    }

    /**
     * The share of the last minute for which the line was taken up by reads and its errand, time-outs included; empty at
     * the start.
     */
    public OptionalDouble load() {
        return progress.paces().load(clock.ticks());
    }

    /** Whether the line is connected. */
    public LineLink link() {
        return link;
    }

    /** Whether more is wanted of the line than it can do, as it was told last. */
    public boolean isOverloaded() {
        return progress.isBehind();
    }

    /** What became of its requests so far. */
    public LineCounts counts() {
        return transport.counts();
    }

    /** The same of one unit alone. */
    public LineCounts counts(UnitId unit) {
        return transport.counts(unit);
    }

    /** What somebody should look at on it. */
    public List<Finding> findings() {
        return transport.findings();
    }

    /** Where people's tools ask for reads. */
    public ToolReads tools() {
        return tools;
    }

    /**
     * A controller may be another or have other firmware: before its next read, all that it refused is forgotten. The
     * poller does so by itself when a point whose role is identity changes.
     */
    public void askAnew(ControllerDefinition controller) {
        anew.add(controller);
    }

    /** Ends a transaction under way and settles no more of them. */
    @Override
    public void close() {
        closed = true;
        tools.close();
        transport.close();
    }
}
