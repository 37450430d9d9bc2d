package burnerbridge.poll;

import burnerbridge.line.LineTransport;
import burnerbridge.line.Outcome;
import burnerbridge.line.ReadRequest;
import burnerbridge.model.BridgeClock;
import burnerbridge.model.Stamp;
import burnerbridge.plan.LinePlan;
import burnerbridge.table.ValueTable;
import java.util.Optional;
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
    private final BridgeClock clock;
    private final Controllers controllers;
    private final Agenda agenda;
    private final Readings readings;
    private final Refusals refusals;
    private final ConnectPause connectPause = new ConnectPause();
    private final LineLog log;
    private volatile boolean closed;

    public LinePoller(LinePlan plan, LineTransport transport, ValueTable table, BridgeClock clock) {
        this.line = plan.line().name().text();
        this.transport = transport;
        this.clock = clock;
        this.log = new LineLog(line);
        this.controllers = new Controllers(plan, transport, table, log, clock.ticks());
        this.agenda = new Agenda(controllers.all(), plan.line().replyTimeout());
        this.readings = new Readings(table, clock);
        this.refusals = new Refusals(agenda, readings, log, clock);
    }

    /**
     * Does the most overdue read, if any is due.
     *
     * @return the tick at which the next step may have something to do; not in the future where this one had
     */
    public long step() {
        long now = clock.ticks();
        long connect = connectPause.notBefore(now);
        if (connect - now > 0) {
            return connect;
        }
        Optional<Schedule> next = agenda.take(now);
        if (next.isEmpty()) {
            return agenda.soonest().orElse(now + NOTHING_TO_DO);
        }
        try {
            ask(next.get(), now);
        } finally {
            agenda.putBack();
        }
        return connectPause.notBefore(clock.ticks());
    }

    private void ask(Schedule read, long now) {
        ReadRequest request = read.request();
        read.controller.asked(read, now);
        Outcome outcome = transport.read(request);
        LOG.trace("line {}: {} -> {}", line, request, outcome);
        if (!closed) {
            settle(read, request, outcome);
        }
    }

    private void settle(Schedule asked, ReadRequest request, Outcome outcome) {
        if (outcome instanceof Outcome.NotConnected notConnected) {
            asked.gathering.clear();
            lineDown(asked, notConnected);
            return;
        }
        if (connectPause.connected()) {
            log.connected();
        }
        if (outcome instanceof Outcome.Answered answered) {
            refusals.none(asked);
            gathered(asked, answered);
            return;
        }
        asked.gathering.clear();
        if (outcome instanceof Outcome.Refused refused) {
            refusals.settle(asked, request, refused);
        } else if (outcome instanceof Outcome.Broken broken) {
            LOG.debug("line {}: {}: {}", line, request, broken.what());
            unanswered(asked, "a wrong reply to " + request + ": " + broken.what(), "wrong replies to");
        } else {
            unanswered(asked, "no reply to " + request, "no reply to");
        }
    }

    private void unanswered(Schedule asked, String detail, String what) {
        asked.controller.health.silent(detail, clock.now());
        log.unanswered(asked, what);
    }

    private void gathered(Schedule asked, Outcome.Answered answered) {
        Optional<Outcome.Answered> whole = asked.gathering.take(answered);
        if (whole.isPresent()) {
            asked.gathering.clear();
            log.answered(asked);
            readings.answered(asked.block, whole.get());
        } else if (asked.gathering.isGivenUp()) {
            asked.gathering.clear();
            log.unanswered(asked, "no two equal replies in");
        } else {
            // The rest follows at once, before it can have changed.
            asked.dueAt(clock.ticks());
        }
    }

    private void lineDown(Schedule asked, Outcome.NotConnected notConnected) {
        Stamp now = clock.now();
        if (connectPause.failed(now.ticks())) {
            log.notConnected(notConnected);
        }
        // The read was never asked: it stays the first to be tried.
        asked.dueAt(now.ticks());
        controllers.lineDown(notConnected.why(), now);
    }

    /** Ends a transaction under way and settles no more of them. */
    @Override
    public void close() {
        closed = true;
        transport.close();
    }
}
