package burnerbridge.bacnet.plan;

import burnerbridge.bacnet.edge.coding.ObjectId;
import burnerbridge.site.Bindings;
import burnerbridge.site.ControllerDefinition;
import burnerbridge.site.Name;
import burnerbridge.site.ObjectKind;
import burnerbridge.site.PointId;
import burnerbridge.site.RequestObjects;
import burnerbridge.site.Site;
import burnerbridge.site.SitePoint;
import burnerbridge.site.StateNumbers;
import burnerbridge.site.permit.Purpose;
import burnerbridge.site.permit.WritePermit;
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
 * @param asked what permitted points have beside their own objects, in the order of the permits
 * @param mute permitted points that nobody on BACnet can ask for
 */
public record ObjectPlan(
        List<Served> served,
        List<Asked> asked,
        List<OfController> controllers,
        List<PointOff> off,
        List<PointOff> mute) {

    /** A point, its object, and where that is a multi-state one, the numbers of its states. */
    public record Served(SitePoint point, int instance, StateNumbers states, String name) {}

    /**
     * By what a permitted point is asked for.
     *
     * @param kind of the object that is commanded
     * @param states the multi-state numbers, those of the object that shows the point
     * @param lease what tells how long the winner still holds; empty where none ends, or it is not bound
     */
    public record Asked(
            SitePoint point,
            WritePermit permit,
            ObjectKind kind,
            int instance,
            String name,
            StateNumbers states,
            Optional<Lease> lease) {

        /** What others may ask for. */
        public Purpose.Asked terms() {
            return permit.asked().orElseThrow();
        }
    }

    /** An Analog Value. */
    public record Lease(int instance, String name) {}

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
        asked = List.copyOf(asked);
        mute = List.copyOf(mute);
        controllers = List.copyOf(controllers);
        off = List.copyOf(off);
    }

    /** Goes through a site; a point that cannot have an object takes none from another. */
    public static ObjectPlan of(Site site, ObjectChoices choices) {
        return new Planner(choices, site.bindings()).plan(site);
    }

    /** How many objects there are beside the device. */
    public int count() {
        long own = controllers.stream().filter(c -> c.answers().isPresent()).count()
                + controllers.stream().filter(c -> c.view().isPresent()).count();
        long leases = asked.stream().filter(a -> a.lease().isPresent()).count();
        return served.size() + asked.size() + (int) (leases + own);
    }

    private static final class Planner {
        private static final int BINARY_INPUT = 3;
        private static final int STRUCTURED_VIEW = 29;

        private final ObjectChoices choices;
        private final Bindings bindings;
        private final List<Served> served = new ArrayList<>();
        private final List<PointOff> off = new ArrayList<>();
        private final List<Asked> asked = new ArrayList<>();
        private final List<PointOff> mute = new ArrayList<>();
        private final Map<ObjectId, String> places = new HashMap<>();
        private final Map<String, String> names = new HashMap<>();

        Planner(ObjectChoices choices, Bindings bindings) {
            this.choices = choices;
            this.bindings = bindings;
        }

        /** Points come first: no permit takes a place or a name from any of them. */
        ObjectPlan plan(Site site) {
            List<SitePoint> points = site.points();
            points.forEach(point -> place(point).ifPresent(why -> off.add(new PointOff(point, why))));
            if (!site.permits().isEmpty()) {
                placePermits(site, points);
            }
            return new ObjectPlan(
                    served, asked, site.controllers().stream().map(this::place).toList(), off, mute);
        }

        private void placePermits(Site site, List<SitePoint> points) {
            Map<PointId, SitePoint> byId = new HashMap<>();
            points.forEach(point -> byId.put(point.id(), point));
            for (WritePermit permit : site.permits()) {
                SitePoint point = byId.get(permit.point());
                if (point != null && permit.asked().isPresent()) {
                    place(point, permit).ifPresent(why -> mute.add(new PointOff(point, why)));
                }
            }
        }

        /** Gives a permitted point the object by which it is asked for, or says why not. */
        private Optional<String> place(SitePoint point, WritePermit permit) {
            Optional<RequestObjects> objects = RequestObjects.of(point.definition(), permit);
            if (objects.isEmpty()) {
                return Optional.of("its name with " + RequestObjects.REQUEST + " would be too long");
            }
            RequestObjects wanted = objects.get();
            StateNumbers states = wanted.kind().isMultiState() ? statesOf(point) : StateNumbers.NONE;
            if (wanted.kind().isMultiState() && states.isEmpty()) {
                return Optional.of("it has no multi-state object, whose numbers it would have");
            }
            Optional<Integer> instance = instance(point, wanted.request(), wanted.kind());
            if (instance.isEmpty()) {
                return Optional.of("its request object is not bound to an instance");
            }
            String name = choices.names().ofRequest(point);
            Optional<String> taken = taken(wanted.kind(), instance.get(), name, "the request object of " + point.id());
            if (taken.isEmpty()) {
                asked.add(new Asked(
                        point,
                        permit,
                        wanted.kind(),
                        instance.get(),
                        name,
                        states,
                        wanted.lease().flatMap(lease -> lease(point, lease))));
            }
            return taken;
        }

        private Optional<Lease> lease(SitePoint point, Name lease) {
            String name = choices.names().ofLease(point);
            return instance(point, lease, ObjectKind.ANALOG_VALUE)
                    .filter(instance -> taken(
                                    ObjectKind.ANALOG_VALUE, instance, name, "the lease object of " + point.id())
                            .isEmpty())
                    .map(instance -> new Lease(instance, name));
        }

        private StateNumbers statesOf(SitePoint point) {
            return bindings.of(
                            point.controller().type().name(), point.definition().name())
                    .map(Bindings.Binding::states)
                    .orElse(StateNumbers.NONE);
        }

        /** Where an object of this name is bound, unless it is a row of the list that has the name. */
        private Optional<Integer> instance(SitePoint point, Name name, ObjectKind kind) {
            boolean isRow = point.controller().type().points().stream()
                    .anyMatch(row -> row.name().equals(name));
            return bindings.of(point.controller().type().name(), name)
                    .filter(binding -> !isRow && binding.object() == kind)
                    .map(binding -> (long) point.controller().instanceBase() + binding.offset())
                    .filter(instance -> instance >= 0 && instance < ObjectId.LAST_INSTANCE)
                    .map(Long::intValue);
        }

        private Optional<String> taken(ObjectKind kind, int instance, String name, String taker) {
            return taken(new ObjectId(Kinds.type(kind).intValue(), instance), kind.word(), name, taker);
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
