package burnerbridge.poll;

import burnerbridge.line.Outcome.Answered;
import burnerbridge.line.ReadRequest;
import burnerbridge.plan.CostModel;
import burnerbridge.plan.LinePlan;
import burnerbridge.plan.Prediction;
import burnerbridge.plan.Turnaround;
import burnerbridge.plan.Turnarounds;
import burnerbridge.poll.agenda.Agenda;
import burnerbridge.poll.agenda.Controller;
import burnerbridge.poll.agenda.Controllers;
import burnerbridge.poll.agenda.LineLog;
import burnerbridge.poll.agenda.Schedule;
import burnerbridge.site.ControllerDefinition;
import burnerbridge.site.LineDefinition;
import burnerbridge.site.Name;
import java.time.Duration;
import java.util.HashMap;
import java.util.HashSet;
import java.util.Map;
import java.util.Optional;
import java.util.Set;

/**
 * Learns from the replies of a line's controllers how long each thinks before it answers, and lets the plan follow.
 * On Modbus TCP there is nothing to learn, since its plan is the same whatever the turnaround is. The line's thread
 * uses it; what was learned is for any.
 */
final class Learning {
    /** The plan of a line changes once in so long at most. */
    static final Duration PAUSE = Duration.ofMinutes(1);

    private final LineDefinition line;
    private final Controllers controllers;
    private final Replan replan;
    private final LineLog log;
    private final boolean learns;
    private final Map<Name, Turnaround> byController = new HashMap<>();
    private final Set<Name> planInPart = new HashSet<>();
    private Turnarounds planned;
    private long lookAt;

    Learning(LinePlan plan, Controllers controllers, Agenda agenda, LineLog log, long now) {
        this.line = plan.line();
        this.controllers = controllers;
        this.replan = new Replan(line, controllers, agenda);
        this.log = log;
        this.learns = !(line.endpoint() instanceof LineDefinition.Tcp);
        this.planned = plan.turnarounds();
        this.lookAt = now + PAUSE.toNanos();
    }

    /** What is known of a controller by now. For any thread. */
    synchronized Optional<Duration> learned(ControllerDefinition controller) {
        return Optional.ofNullable(byController.get(controller.name())).flatMap(Turnaround::learned);
    }

    /**
     * A read was answered that was asked at a tick. What may be the reply to an earlier request says nothing of
     * how long it took.
     */
    synchronized void answered(ControllerDefinition from, ReadRequest request, Answered reply, long asked, long now) {
        long left = reply.askedAt().ticks();
        if (learns && left - asked >= 0) {
            byController
                    .computeIfAbsent(from.name(), name -> new Turnaround(CostModel.of(line)))
                    .answered(request, Duration.ofNanos(now - left));
        }
    }

    /** Plans anew where it is time to and enough has changed; whether it was. */
    boolean look(long now) {
        if (!learns || now - lookAt < 0) {
            return false;
        }
        lookAt = now + PAUSE.toNanos();
        Turnarounds before = planned;
        controllers.all().stream().filter(Controller::isAnswering).forEach(controller -> look(controller, now));
        return !planned.equals(before);
    }

    private void look(Controller controller, long now) {
        ControllerDefinition definition = controller.definition();
        Duration before = planned.of(definition);
        Optional<Duration> off = off(definition, before);
        if (off.isPresent()) {
            planAnew(controller, before, off.get(), now);
        } else if (planInPart.contains(definition.name())
                && controller.reads().stream().noneMatch(Schedule::stays)) {
            make(controller, before, now);
        }
    }

    private synchronized Optional<Duration> off(ControllerDefinition definition, Duration before) {
        return Optional.ofNullable(byController.get(definition.name())).flatMap(known -> known.offFrom(before));
    }

    private void planAnew(Controller controller, Duration before, Duration learned, long now) {
        LinePlan old = plan();
        planned = planned.with(controller.definition().name(), learned);
        make(controller, learned, now);
        log.learned(controller.definition(), before, learned, Prediction.of(old), Prediction.of(plan()));
    }

    private void make(Controller controller, Duration turnaround, long now) {
        Name name = controller.definition().name();
        if (replan.make(controller, turnaround, now)) {
            planInPart.remove(name);
        } else {
            planInPart.add(name);
        }
    }

    /** The reads as they are made now. */
    LinePlan plan() {
        return new LinePlan(line, controllers.blocks(), planned);
    }
}
