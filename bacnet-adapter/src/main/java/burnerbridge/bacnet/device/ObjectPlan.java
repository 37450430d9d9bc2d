package burnerbridge.bacnet.device;

import burnerbridge.bacnet.edge.coding.ObjectId;
import burnerbridge.site.Bindings;
import burnerbridge.site.ObjectKind;
import burnerbridge.site.SitePoint;
import burnerbridge.site.StateNumbers;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/**
 * Which points have an object, and why the others have none.
 *
 * @param served in the order of the site
 */
public record ObjectPlan(List<Served> served, List<PointOff> off) {

    /** A point, the instance of its object, and where it is a multi-state one, the numbers of its states. */
    public record Served(SitePoint point, int instance, StateNumbers states) {}

    /** A point that stays off BACnet, with a sentence for people. */
    public record PointOff(SitePoint point, String why) {}

    public ObjectPlan {
        served = List.copyOf(served);
        off = List.copyOf(off);
    }

    /** Goes through the points of a site; a point that cannot have an object takes none from another. */
    public static ObjectPlan of(List<SitePoint> points, Bindings bindings) {
        Map<ObjectId, Served> served = new LinkedHashMap<>();
        List<PointOff> off = new ArrayList<>();
        for (SitePoint point : points) {
            place(point, bindings, served).ifPresent(why -> off.add(new PointOff(point, why)));
        }
        return new ObjectPlan(List.copyOf(served.values()), off);
    }

    /** Gives a point its object, or says why not. */
    private static Optional<String> place(SitePoint point, Bindings bindings, Map<ObjectId, Served> served) {
        ObjectKind kind = point.definition().object();
        if (kind == ObjectKind.NONE) {
            return Optional.of("its row says that it has no object");
        }
        Optional<Bindings.Binding> binding =
                bindings.of(point.controller().type().name(), point.definition().name());
        if (binding.isEmpty()) {
            return Optional.of("it is not bound to an object");
        }
        if (binding.get().object() != kind) {
            return Optional.of("it is bound as " + binding.get().object().word() + " but is " + kind.word());
        }
        StateNumbers states = binding.get().states();
        if (kind == ObjectKind.MULTI_STATE_INPUT && states.isEmpty()) {
            return Optional.of("none of its states has a multi-state number");
        }
        long instance = (long) point.controller().instanceBase() + binding.get().offset();
        if (instance < 0 || instance >= ObjectId.LAST_INSTANCE) {
            return Optional.of("an instance is 0 to " + (ObjectId.LAST_INSTANCE - 1) + " (was " + instance + ")");
        }
        Served taker = new Served(point, (int) instance, states);
        Served holder = served.putIfAbsent(new ObjectId(Kinds.type(kind).intValue(), (int) instance), taker);
        return holder == null
                ? Optional.empty()
                : Optional.of(
                        kind.word() + " " + instance + " is " + holder.point().id() + " already");
    }
}
