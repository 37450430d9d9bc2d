package burnerbridge.poll;

import burnerbridge.line.Outcome;
import burnerbridge.line.ReadRequest;
import burnerbridge.model.BridgeClock;
import burnerbridge.poll.agenda.Agenda;
import burnerbridge.poll.agenda.Controller;
import burnerbridge.poll.agenda.ControllerHealth;
import burnerbridge.poll.agenda.Controllers;
import burnerbridge.poll.agenda.LineLog;
import burnerbridge.poll.agenda.Refusal;
import burnerbridge.poll.agenda.Schedule;
import burnerbridge.poll.agenda.Trouble;
import burnerbridge.site.SitePoint;
import burnerbridge.site.UnitId;
import java.util.List;
import java.util.Optional;

/** What a request came to: for its readings, for its next turn, and for its controller. */
final class Settlement {
    private final Controllers controllers;
    private final Agenda agenda;
    private final Trouble trouble;
    private final Readings readings;
    private final Refusals refusals;
    private final LineLog log;
    private final BridgeClock clock;

    Settlement(
            Controllers controllers,
            Agenda agenda,
            Trouble trouble,
            Readings readings,
            LineLog log,
            BridgeClock clock) {
        this.controllers = controllers;
        this.agenda = agenda;
        this.trouble = trouble;
        this.readings = readings;
        this.refusals = new Refusals(agenda, readings, log, clock);
        this.log = log;
        this.clock = clock;
    }

    void settle(Schedule asked, ReadRequest request, Outcome outcome, long askedAt) {
        boolean wasLost = asked.controller().health().isLost();
        boolean first = !wasLost && !outcome.isReply() && !controllers.isAnySuspect();
        if (outcome instanceof Outcome.Answered answered) {
            if (wasLost) {
                asked.pace().interrupted();
            }
            refusals.none(asked);
            gathered(asked, answered);
        } else {
            asked.gathering().clear();
            withoutData(asked, request, outcome);
        }
        if (asked.controller().health().isSilent()) {
            trouble.silent(first, askedAt, clock.ticks());
        } else {
            heard(asked.controller(), wasLost);
        }
    }

    private void heard(Controller controller, boolean wasLost) {
        long now = clock.ticks();
        controller.heard(now);
        if (wasLost) {
            agenda.restart(controller, now);
            controllers.probeSoon(now);
        }
    }

    private void withoutData(Schedule asked, ReadRequest request, Outcome outcome) {
        if (outcome instanceof Outcome.Refused refused) {
            if (Refusal.of(refused.code()) == Refusal.LOST_BEHIND_GATEWAY) {
                String exception = LineLog.exception(refused.code());
                unanswered(asked, "its gateway cannot reach it: " + exception, exception + ", to");
            } else {
                asked.pace().refused();
                refusals.settle(asked, request, refused);
            }
        } else if (outcome instanceof Outcome.Broken broken) {
            log.isBroken(request, broken);
            unanswered(asked, "a wrong reply to " + request + ": " + broken.what(), "wrong replies to");
        } else {
            unanswered(asked, "no reply to " + request, "no reply to");
        }
    }

    /**
     * What a lost controller is asked to see whether it is back counts for nothing; a read that alone is not answered
     * is told, and made less often.
     */
    private void unanswered(Schedule asked, String detail, String what) {
        asked.controller().health().silent(detail, clock.now());
        if (asked.controller().health().isLost()) {
            return;
        }
        int times = asked.unanswered();
        log.unanswered(asked.block(), what, times);
        if (times >= ControllerHealth.SILENCES_UNTIL_LOST) {
            asked.putOffForSilence(clock.ticks());
        }
    }

    private void gathered(Schedule asked, Outcome.Answered answered) {
        Optional<Outcome.Answered> whole = asked.gathering().take(answered);
        if (whole.isPresent()) {
            asked.gathering().clear();
            asked.pace().answered(clock.ticks());
            log.answered(asked.block(), asked.answered());
            Readings.News news = readings.answered(asked.block(), whole.get());
            if (news.another()) {
                askAnew(asked.controller());
            }
            news.opened().forEach(opened -> hasten(opened, asked));
        } else if (asked.gathering().isGivenUp()) {
            asked.gathering().clear();
            log.unanswered(asked.block(), "no two equal replies in", asked.unanswered());
        } else {
            // The rest follows at once, before it can have changed.
            asked.dueAt(clock.ticks());
        }
    }

    /** A point may have changed: the reads that bring it are made as soon as nothing speaks against them. */
    void readSoon(SitePoint point) {
        controllers.find(point.controller()).stream()
                .flatMap(controller -> List.copyOf(controller.reads()).stream())
                .filter(read -> read.block().points().contains(point) && read.mayBeHastened())
                .forEach(read -> agenda.move(read, clock.ticks()));
    }

    /** What was read before its condition held is of no use, so that it is read again as soon as it does. */
    private void hasten(SitePoint opened, Schedule justRead) {
        justRead.controller().reads().stream()
                .filter(read -> read != justRead && read.block().points().contains(opened) && read.mayBeHastened())
                .toList()
                .forEach(read -> agenda.move(read, clock.ticks()));
    }

    void askAnew(Controller controller) {
        log.askedAnew(controller.reads().get(0).block().controller(), controller.isAnythingRefused());
        refusals.askAnew(controller);
    }

    /** What a tool asked for says of its controller only that it is there, or that time was lost. */
    void settleForTool(ReadRequest request, Outcome outcome, long askedAt) {
        if (outcome instanceof Outcome.Answered) {
            answeredBesides(request.unit());
        } else if (!outcome.isReply()) {
            trouble.silent(false, askedAt, clock.ticks());
        }
    }

    /** A unit answered something that is no poll, so that those that were lost in it are there. */
    void answeredBesides(UnitId unit) {
        controllers.lost(unit).forEach(controller -> {
            controller.health().answered(clock.now());
            heard(controller, true);
        });
    }
}
