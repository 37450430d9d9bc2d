package burnerbridge.bacnet.plan;

import burnerbridge.bacnet.edge.coding.ObjectId;
import burnerbridge.site.Bindings;
import burnerbridge.site.ControllerDefinition;
import burnerbridge.site.ObjectKind;
import burnerbridge.site.Site;
import burnerbridge.site.SitePoint;
import burnerbridge.site.StateNumbers;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/**
 * Which objects there are, where and under what name, and which points have none.
 *
 * <p>Points are placed by their bindings. What a controller has beside them stands at its instance base, which
 * no binding can take from it but that of another controller: then it is left out, as points come first.
 *
 * @param served in the order of the site
 */
public record ObjectPlan(List<Served> served, List<OfController> controllers, List<PointOff> off) {

    /** A point, its object, and where that is a multi-state one, the numbers of its states. */
    public record Served(SitePoint point, int instance, StateNumbers states, String name) {}

    /**
     * What a controller has beside its points.
     *
     * @param answers the name of the object that tells whether it answers; empty where its place is taken
     * @param view the name of its Structured View; empty where that is taken or not wanted
     */
    public record OfController(
            ControllerDefinition controller, int instance, Optional<String> answers, Optional<String> view) {}

    /** A point that stays off BACnet, with a sentence for people. */
    public record PointOff(SitePoint point, String why) {}

    public ObjectPlan {
        served = List.copyOf(served);
        controllers = List.copyOf(controllers);
        off = List.copyOf(off);
    }

    /** Goes through a site; a point that cannot have an object takes none from another. */
    public static ObjectPlan of(Site site, ObjectChoices choices) {
        return new Planner(choices, site.bindings()).plan(site.points(), site.controllers());
    }

    /** How many objects there are beside the device. */
    public int count() {
        long own = controllers.stream().filter(c -> c.answers().isPresent()).count()
                + controllers.stream().filter(c -> c.view().isPresent()).count();
        return served.size() + (int) own;
    }

    private static final class Planner {
        private static final int BINARY_INPUT = 3;
        private static final int STRUCTURED_VIEW = 29;

        private final ObjectChoices choices;
        private final Bindings bindings;
        private final List<Served> served = new ArrayList<>();
        private final List<PointOff> off = new ArrayList<>();
        private final Map<ObjectId, String> places = new HashMap<>();
        private final Map<String, String> names = new HashMap<>();

        Planner(ObjectChoices choices, Bindings bindings) {
            this.choices = choices;
            this.bindings = bindings;
        }

        ObjectPlan plan(List<SitePoint> points, List<ControllerDefinition> controllers) {
            points.forEach(point -> place(point).ifPresent(why -> off.add(new PointOff(point, why))));
            return new ObjectPlan(served, controllers.stream().map(this::place).toList(), off);
        }

        /** Gives a point its object, or says why not. */
        private Optional<String> place(SitePoint point) {
            ObjectKind kind = point.definition().object();
            if (kind == ObjectKind.NONE) {
                return Optional.of("its row says that it has no object");
            }
            Optional<Bindings.Binding> binding = bindings.of(
                    point.controller().type().name(), point.definition().name());
            return binding.isEmpty() ? Optional.of("it is not bound to an object") : place(point, kind, binding.get());
        }

        private Optional<String> place(SitePoint point, ObjectKind kind, Bindings.Binding binding) {
            if (binding.object() != kind) {
                return Optional.of("it is bound as " + binding.object().word() + " but is " + kind.word());
            }
            if (kind.isMultiState() && binding.states().isEmpty()) {
                return Optional.of("none of its states has a multi-state number");
            }
            long instance = (long) point.controller().instanceBase() + binding.offset();
            if (instance < 0 || instance >= ObjectId.LAST_INSTANCE) {
                return Optional.of("an instance is 0 to " + (ObjectId.LAST_INSTANCE - 1) + " (was " + instance + ")");
            }
            String name = choices.names().of(point);
            Optional<String> taken = taken(
                    new ObjectId(Kinds.type(kind).intValue(), (int) instance),
                    kind.word(),
                    name,
                    point.id().toString());
            if (taken.isEmpty()) {
                served.add(new Served(point, (int) instance, binding.states(), name));
            }
            return taken;
        }

        /** Takes a place and a name, or says who has one of them. */
        private Optional<String> taken(ObjectId place, String kind, String name, String taker) {
            if (places.containsKey(place)) {
                return Optional.of(kind + " " + place.instance() + " is " + places.get(place) + " already");
            }
            if (names.containsKey(name)) {
                return Optional.of("the name " + name + " is that of " + names.get(name) + " already");
            }
            places.put(place, taker);
            names.put(name, taker);
            return Optional.empty();
        }

        private OfController place(ControllerDefinition controller) {
            return new OfController(
                    controller,
                    controller.instanceBase(),
                    own(controller, BINARY_INPUT, choices.names().ofAnswers(controller)),
                    choices.basic()
                            ? Optional.empty()
                            : own(controller, STRUCTURED_VIEW, choices.names().ofView(controller)));
        }

        private Optional<String> own(ControllerDefinition controller, int type, String name) {
            ObjectId place = new ObjectId(type, controller.instanceBase());
            return taken(place, "", name, controller.name().text()).isEmpty() ? Optional.of(name) : Optional.empty();
        }
    }
}
