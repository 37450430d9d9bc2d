package burnerbridge.config.binding;

import burnerbridge.config.binding.BindingStep.Kind;
import burnerbridge.config.file.SiteFile.Based;
import burnerbridge.config.file.SiteFileReader;
import burnerbridge.config.problem.Problems;
import burnerbridge.config.problem.Problems.Place;
import burnerbridge.site.ObjectKind;
import java.util.HashMap;
import java.util.List;
import java.util.Map;

/** Tells what of the bindings cannot be, and what {@code check --bind} would change. */
public final class BindingCheck {
    private final List<Based> controllers;
    private final List<BindingRow> rows;
    private final Problems problems;

    /** Who has an instance, live or gone. */
    private record Holder(Based controller, BindingRow row) {
        private String text() {
            return controller.name() + "." + row.point() + " (bindings.csv line "
                    + row.place().line() + ")";
        }
    }

    private record Instance(ObjectKind kind, int number) {}

    public BindingCheck(List<Based> controllers, List<BindingRow> rows, Problems problems) {
        this.controllers = controllers;
        this.rows = rows;
        this.problems = problems;
    }

    /** Two points on one instance, and instances that BACnet does not have. */
    public void checkInstances() {
        Map<Instance, Holder> holders = new HashMap<>();
        for (Based controller : controllers) {
            // One finding a controller: where two bases meet, most of their points do.
            boolean sound = true;
            for (BindingRow row : rows) {
                sound = sound
                        && (!row.type().equals(controller.type()) || isSound(new Holder(controller, row), holders));
            }
        }
    }

    private boolean isSound(Holder holder, Map<Instance, Holder> holders) {
        int number = holder.controller().instanceBase() + holder.row().offset();
        if (number > SiteFileReader.LAST_INSTANCE) {
            if (holder.row().isLive()) {
                problems.error(
                        holder.row().place(),
                        "offset: instance " + number + " of "
                                + holder.controller().name() + "."
                                + holder.row().point() + " is past " + SiteFileReader.LAST_INSTANCE);
            }
            return !holder.row().isLive();
        }
        Holder other = holders.putIfAbsent(new Instance(holder.row().object(), number), holder);
        if (other == null) {
            return true;
        }
        tellClash(holder, other, holder.row().object().word() + " " + number);
        return false;
    }

    private void tellClash(Holder holder, Holder other, String object) {
        Based controller = holder.controller();
        String clash = "controllers." + controller.name() + ".instance-base: " + controller.instanceBase() + " gives "
                + holder.text() + " " + object + ", which ";
        if (holder.row().isLive() && other.row().isLive()) {
            problems.error(controller.place(), clash + "is already " + other.text());
        } else {
            problems.warning(
                    controller.place(),
                    clash + "is also " + other.text() + "; one of them is gone, but who still asks for it there would"
                            + " get the other");
        }
    }

    /** What would be changed, while it is not. */
    public void tellPlan(BindingPlan plan) {
        plan.doubts().forEach(doubt -> problems.warning(doubt.place(), doubt.question()));
        plan.steps().forEach(step -> {
            switch (step.kind()) {
                case BACK, OTHER_OBJECT, STATES_NUMBERED, EXCHANGED, NO_INSTANCE_LEFT ->
                    problems.warning(step.place(), step.finding());
                case GONE, READ_FROM_ELSEWHERE -> problems.note(step.place(), step.finding());
                case ADDED, PERMIT_ADDED, RENAMED, PLACE_NOTED -> {}
            }
        });
        tellAdded(plan, Kind.ADDED, " point has", " points have");
        tellAdded(plan, Kind.PERMIT_ADDED, " object of a write permit has", " objects of write permits have");
    }

    private void tellAdded(BindingPlan plan, Kind kind, String one, String several) {
        List<BindingStep> added =
                plan.steps().stream().filter(step -> step.kind() == kind).toList();
        if (!added.isEmpty()) {
            problems.warning(
                    Place.wholeFile(BindingsFile.NAME),
                    added.size() + (added.size() == 1 ? one : several)
                            + " no binding and stay off BACnet, the first of them "
                            + added.get(0).finding() + "; 'check --bind' gives each an instance for good");
        }
    }
}
