package burnerbridge.poll;

import burnerbridge.line.Outcome.Refused;
import burnerbridge.line.ReadRequest;
import burnerbridge.model.BridgeClock;

/** What is done about exceptions, and when there are none. */
final class Refusals {
    private final Agenda agenda;
    private final Readings readings;
    private final LineLog log;
    private final BridgeClock clock;

    Refusals(Agenda agenda, Readings readings, LineLog log, BridgeClock clock) {
        this.agenda = agenda;
        this.readings = readings;
        this.log = log;
        this.clock = clock;
    }

    /** The read was answered with data. */
    void none(Schedule asked) {
        notBusy(asked);
        FunctionReads function = asked.function;
        boolean wasAbsent = function.isAbsent();
        function.answered().forEach((read, refused) -> log.refused(read.block, refused));
        if (wasAbsent) {
            function.all().stream().filter(Schedule::isParked).forEach(read -> agenda.move(read, clock.ticks()));
        }
    }

    void settle(Schedule asked, ReadRequest request, Refused refused) {
        switch (Refusal.of(refused.code())) {
            case BUSY -> busy(asked, request, refused);
            case LOST_BEHIND_GATEWAY -> lostBehindGateway(asked, refused);
            case NO_FUNCTION -> {
                isThere(asked);
                noFunction(asked, refused);
            }
            case REFUSED -> {
                isThere(asked);
                log.refused(asked.block, refused);
                readings.refused(asked.block, refused);
            }
        }
    }

    private void isThere(Schedule asked) {
        log.answered(asked);
        notBusy(asked);
    }

    private void notBusy(Schedule asked) {
        if (asked.busy.isOver()) {
            log.noLongerBusy(asked.block);
        }
        if (asked.controller.health.answered(clock.now())) {
            // It was busy as a whole, so what its reads met meanwhile says nothing of any of them.
            asked.controller.reads().stream()
                    .filter(read -> read.busy.isSo() && !read.isParked())
                    .forEach(this::askAgainNow);
        }
    }

    private void askAgainNow(Schedule read) {
        read.busy.isOver();
        agenda.move(read, clock.ticks());
    }

    /** It is there but cannot answer now: the readings keep their ages. */
    private void busy(Schedule asked, ReadRequest request, Refused refused) {
        log.isBusy(request, refused.code());
        log.answered(asked);
        ControllerHealth health = asked.controller.health;
        boolean asAWhole =
                health.busy(asked, refused.code(), asked.controller.reads().size(), clock.now());
        if (!asAWhole && asked.busy.again(clock.ticks())) {
            log.busy(asked.block, refused.code());
        }
        asked.retryAt(asked.busy.notBefore(health.notBefore(clock.ticks())));
    }

    private void lostBehindGateway(Schedule asked, Refused refused) {
        String exception = LineLog.exception(refused.code());
        asked.controller.health.silent("its gateway cannot reach it: " + exception, clock.now());
        log.unanswered(asked, exception + ", to");
    }

    /**
     * One refusal stands for all reads by a function that is absent, and one read for all of them finds out
     * whether it is still so. A function that was answered before is there, whatever one read by it says.
     */
    private void noFunction(Schedule asked, Refused refused) {
        readings.refused(asked.block, refused);
        switch (asked.function.refused(asked, refused)) {
            case READ_REFUSED -> log.refused(asked.block, refused);
            case FUNCTION_ABSENT -> absent(asked, refused);
            case NOT_SURE -> {}
        }
    }

    private void absent(Schedule asked, Refused refused) {
        FunctionReads function = asked.function;
        log.noFunction(asked.block, function.all().size(), refused);
        for (Schedule read : function.all()) {
            readings.refused(read.block, refused);
            agenda.park(read);
        }
        agenda.move(function.nextProbe(), clock.ticks() + function.every());
    }
}
