package burnerbridge.site;

import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/** The lasting assignment of points to BACnet object instances. */
public record Bindings(List<Binding> entries) {
    public static final Bindings NONE = new Bindings(List.of());

    /**
     * One point of a type.
     *
     * @param offset added to the controller's instance base; 1 to 4194302, since 0 is kept for the
     *     object that tells whether the controller answers
     */
    public record Binding(Name type, Name point, ObjectKind object, int offset) {}

    public Bindings {
        entries = List.copyOf(entries);
    }

    /** The object instance of every bound point; a point that is missing stays off BACnet. */
    public Map<PointId, Integer> instances(List<SitePoint> points) {
        Map<PointId, Integer> offsets = new HashMap<>();
        entries.forEach(b -> offsets.put(new PointId(b.type(), b.point()), b.offset()));
        Map<PointId, Integer> instances = new HashMap<>();
        for (SitePoint point : points) {
            Integer offset = offsets.get(new PointId(
                    point.controller().type().name(), point.definition().name()));
            if (offset != null) {
                instances.put(point.id(), point.controller().instanceBase() + offset);
            }
        }
        return instances;
    }

    public Optional<Binding> of(Name type, Name point) {
        return entries.stream()
                .filter(b -> b.type().equals(type) && b.point().equals(point))
                .findFirst();
    }
}
