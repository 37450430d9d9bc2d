package burnerbridge.poll;

import burnerbridge.line.Outcome.Refused;
import burnerbridge.line.ReadRequest;
import burnerbridge.model.BridgeClock;
import burnerbridge.poll.agenda.Agenda;
import burnerbridge.poll.agenda.Controller;
import burnerbridge.poll.agenda.ControllerHealth;
import burnerbridge.poll.agenda.FunctionReads;
import burnerbridge.poll.agenda.LineLog;
import burnerbridge.poll.agenda.Refusal;
import burnerbridge.poll.agenda.Schedule;
import java.util.List;

/** What is done about exceptions, and when there are none. */
final class Refusals {
    private final Agenda agenda;
    private final Splits splits;
    private final Readings readings;
    private final LineLog log;
    private final BridgeClock clock;

    Refusals(Agenda agenda, Readings readings, LineLog log, BridgeClock clock) {
        this.agenda = agenda;
        this.splits = new Splits(agenda, log, clock);
        this.readings = readings;
        this.log = log;
        this.clock = clock;
    }

    /** The read was answered with data. */
    void none(Schedule asked) {
        notBusy(asked);
        boolean accepted = asked.accepted();
        if (accepted) {
            log.accepted(asked.block());
        }
        FunctionReads function = asked.function();
        boolean wasAbsent = function.isAbsent();
        function.answered().forEach((read, refused) -> log.refused(read.block(), refused));
        if (wasAbsent) {
            askAgain(List.copyOf(function.all()));
        } else if (accepted) {
            // What was refused is there now, so that the whole may be, too.
            splits.restore(List.of(asked));
        } else {
            splits.answered(asked);
        }
    }

    /** The unit replied with an exception; what a gateway says in its place is none of its replies. */
    void settle(Schedule asked, ReadRequest request, Refused refused) {
        switch (Refusal.of(refused.code())) {
            case BUSY -> busy(asked, request, refused);
            case LOST_BEHIND_GATEWAY -> throw new IllegalArgumentException("no reply of the unit: " + refused);
            case NO_FUNCTION -> {
                isThere(asked);
                noFunction(asked, refused);
            }
            case REGISTERS_REFUSED -> {
                isThere(asked);
                registersRefused(asked, refused);
            }
            case REFUSED -> {
                isThere(asked);
                log.refused(asked.block(), refused);
                readings.refused(asked.block(), refused);
            }
        }
    }

    private void isThere(Schedule asked) {
        log.answered(asked.block(), asked.answered());
        notBusy(asked);
    }

    private void notBusy(Schedule asked) {
        if (asked.busy().isOver()) {
            log.noLongerBusy(asked.block());
        }
        if (asked.controller().health().answered(clock.now())) {
            // It was busy as a whole, so what its reads met meanwhile says nothing of any of them.
            agenda.excuse(asked.controller(), clock.ticks());
        }
    }

    /** It is there but cannot answer now: the readings keep their ages. */
    private void busy(Schedule asked, ReadRequest request, Refused refused) {
        log.isBusy(request, refused.code());
        log.answered(asked.block(), asked.answered());
        ControllerHealth health = asked.controller().health();
        boolean asAWhole =
                health.busy(asked, refused.code(), asked.controller().reads().size(), clock.now());
        if (!asAWhole && asked.busy().again(clock.ticks())) {
            log.busy(asked.block(), refused.code());
        }
        asked.retryAt(asked.busy().notBefore(health.notBefore(clock.ticks())));
    }

    /** Some of it is refused: which, is found out by reading it in parts. */
    private void registersRefused(Schedule asked, Refused refused) {
        if (!splits.split(asked, refused)) {
            log.refused(asked.block(), refused);
            readings.refused(asked.block(), refused);
            asked.refused(clock.ticks());
            splits.refused(asked);
        }
    }

    /**
     * One refusal stands for all reads by a function that is absent, and one read for all of them finds out
     * whether it is still so. A function that was answered before is there, whatever one read by it says.
     */
    private void noFunction(Schedule asked, Refused refused) {
        if (splits.split(asked, refused)) {
            return;
        }
        readings.refused(asked.block(), refused);
        switch (asked.function().refused(asked, refused)) {
            case READ_REFUSED -> registersRefused(asked, refused);
            case FUNCTION_ABSENT -> absent(asked, refused);
            case NOT_SURE -> {}
        }
    }

    private void absent(Schedule asked, Refused refused) {
        FunctionReads function = asked.function();
        log.noFunction(asked.block(), refused);
        for (Schedule read : function.all()) {
            readings.refused(read.block(), refused);
            agenda.park(read);
        }
        agenda.move(function.nextProbe(), clock.ticks() + function.every());
    }

    /** The controller may be another, or another firmware: nothing that it refused counts any more. */
    void askAnew(Controller controller) {
        controller.forgetFunctions();
        askAgain(List.copyOf(controller.reads()));
    }

    private void askAgain(List<Schedule> reads) {
        for (Schedule read : reads) {
            if (read.isParked() || read.refusal().isUnderWay()) {
                read.refusal().end();
                agenda.move(read, clock.ticks());
            }
        }
        splits.restore(reads);
    }
}
