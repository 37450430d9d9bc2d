package burnerbridge.site;

import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;

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

    public Optional<Binding> of(Name type, Name point) {
        return entries.stream()
                .filter(b -> b.type().equals(type) && b.point().equals(point))
                .findFirst();
    }

    /** The object instance of a point; empty where it is not bound and so stays off BACnet. */
    public OptionalInt instanceOf(SitePoint point) {
        Optional<Binding> binding =
                of(point.controller().type().name(), point.definition().name());
        return binding.isEmpty()
                ? OptionalInt.empty()
                : OptionalInt.of(
                        point.controller().instanceBase() + binding.get().offset());
    }
}
