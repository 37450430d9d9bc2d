package burnerbridge.site;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;

/** The lasting assignment of points to BACnet object instances. Immutable. */
public final class Bindings {
    public static final Bindings NONE = new Bindings(List.of());

    private final Map<Key, Binding> byPoint = new LinkedHashMap<>();

    /**
     * One point of a type.
     *
     * @param offset added to the controller's instance base; 1 to 4194302, since 0 is kept for the
     *     object that tells whether the controller answers
     * @param states the multi-state numbers of its states; none where the object is no multi-state one
     */
    public record Binding(Name type, Name point, ObjectKind object, int offset, StateNumbers states) {

        /** A binding of a point without states. */
        public Binding(Name type, Name point, ObjectKind object, int offset) {
            this(type, point, object, offset, StateNumbers.NONE);
        }
    }

    private record Key(Name type, Name point) {}

    /** Of several entries for one point the last counts. */
    public Bindings(List<Binding> entries) {
        entries.forEach(entry -> byPoint.put(new Key(entry.type(), entry.point()), entry));
    }

    public List<Binding> entries() {
        return List.copyOf(byPoint.values());
    }

    public Optional<Binding> of(Name type, Name point) {
        return Optional.ofNullable(byPoint.get(new Key(type, point)));
    }

    /** The object instance of a point; empty where its kind of object is not bound and so stays off BACnet. */
    public OptionalInt instanceOf(SitePoint point) {
        Optional<Binding> binding = of(
                        point.controller().type().name(), point.definition().name())
                .filter(b -> b.object() == point.definition().object());
        return binding.isEmpty()
                ? OptionalInt.empty()
                : OptionalInt.of(
                        point.controller().instanceBase() + binding.get().offset());
    }
}
