package burnerbridge.config;

import burnerbridge.config.Problems.Place;
import burnerbridge.config.SiteFile.ControllerEntry;
import burnerbridge.site.Bindings.Binding;
import burnerbridge.site.ControllerType;
import burnerbridge.site.Name;
import burnerbridge.site.PointDefinition;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.Predicate;

/** Holds the bindings against the point lists, and proposes those that are missing. */
final class BindingCheck {
    private final Map<Name, ControllerType> types;
    /** Whether every row of a type's list was read, so that what is missing there is gone. */
    private final Predicate<Name> isWhole;

    private final List<ControllerEntry> controllers;
    private final List<BindingsFile.Entry> entries;
    private final Problems problems;

    BindingCheck(
            Map<Name, ControllerType> types,
            Predicate<Name> isWhole,
            List<ControllerEntry> controllers,
            List<BindingsFile.Entry> entries,
            Problems problems) {
        this.types = types;
        this.isWhole = isWhole;
        this.controllers = controllers;
        this.entries = entries;
        this.problems = problems;
    }

    void run(boolean hasBacnet) {
        entries.forEach(this::checkAgainstList);
        checkInstances();
        List<Binding> missing = hasBacnet ? proposals() : List.of();
        if (!missing.isEmpty()) {
            problems.warning(
                    Place.wholeFile(BindingsFile.NAME),
                    missing.size() + (missing.size() == 1 ? " point has" : " points have")
                            + " no binding and stay off BACnet, the first of them "
                            + missing.get(0).type() + "." + missing.get(0).point()
                            + "; 'check --bind' gives each an instance for good");
        }
    }

    private void checkAgainstList(BindingsFile.Entry entry) {
        Binding binding = entry.binding();
        ControllerType type = types.get(binding.type());
        Optional<PointDefinition> point = type == null
                ? Optional.empty()
                : type.points().stream()
                        .filter(p -> p.name().equals(binding.point()))
                        .findFirst();
        if (point.isEmpty()) {
            if (isWhole.test(binding.type())) {
                problems.note(
                        entry.place(),
                        binding.type() + "." + binding.point() + " is in no point list; its offset " + binding.offset()
                                + " stays taken");
            }
        } else if (point.get().wantsObject() && point.get().object() != binding.object()) {
            problems.error(
                    entry.place(),
                    "object: " + binding.type() + "." + binding.point() + " is bound as "
                            + binding.object().word() + " but its row makes it "
                            + ObjectCell.article(point.get().object()));
        }
    }

    private void checkInstances() {
        Map<Integer, String> taken = new HashMap<>();
        for (ControllerEntry controller : controllers) {
            // One error a controller: where two bases meet, most of their points do.
            boolean sound = true;
            for (BindingsFile.Entry entry : entries) {
                boolean own = entry.binding().type().equals(controller.type());
                sound = sound && (!own || hasInstanceOfItsOwn(controller, entry, taken));
            }
        }
    }

    private boolean hasInstanceOfItsOwn(
            ControllerEntry controller, BindingsFile.Entry entry, Map<Integer, String> taken) {
        int instance = controller.instanceBase() + entry.binding().offset();
        String point = controller.name() + "." + entry.binding().point();
        if (instance > SiteFileReader.LAST_INSTANCE) {
            problems.error(
                    entry.place(),
                    "offset: instance " + instance + " of " + point + " is past " + SiteFileReader.LAST_INSTANCE);
            return false;
        }
        String other = taken.putIfAbsent(instance, point);
        if (other != null) {
            problems.error(
                    controller.place(),
                    "controllers." + controller.name() + ".instance-base: " + controller.instanceBase() + " gives "
                            + point + " instance " + instance + ", which is already " + other);
        }
        return other == null;
    }

    /** A binding for every point without one; offsets go on from the highest that was ever given. */
    List<Binding> proposals() {
        List<Binding> proposals = new ArrayList<>();
        for (ControllerType type : types.values()) {
            Set<Name> bound = new HashSet<>();
            int highest = 0;
            for (BindingsFile.Entry entry : entries) {
                if (entry.binding().type().equals(type.name())) {
                    bound.add(entry.binding().point());
                    highest = Math.max(highest, entry.binding().offset());
                }
            }
            for (PointDefinition point : type.points()) {
                if (point.wantsObject() && !bound.contains(point.name())) {
                    highest++;
                    proposals.add(new Binding(type.name(), point.name(), point.object(), highest));
                }
            }
        }
        return proposals;
    }
}
