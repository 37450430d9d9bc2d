package burnerbridge.write;

import burnerbridge.site.ControllerDefinition;
import burnerbridge.site.Name;
import burnerbridge.site.SitePoint;
import burnerbridge.table.ValueTable;
import java.util.HashMap;
import java.util.Map;
import java.util.Optional;

/** Which controllers are behind the units, going by the newest good reading of the point that tells them apart. */
final class Identities {
    private final ValueTable table;
    private final Map<ControllerDefinition, SitePoint> points = new HashMap<>();

    Identities(ValueTable table) {
        this.table = table;
        for (SitePoint point : table.points()) {
            ControllerDefinition controller = point.controller();
            Optional<Name> identity = controller.type().options().identity();
            if (!controller.isGroup()
                    && identity.equals(Optional.of(point.definition().name()))) {
                points.put(controller, point);
            }
        }
    }

    /** Empty where it was not read yet, or nothing tells the type's controllers apart. */
    Optional<String> of(ControllerDefinition controller) {
        return point(controller)
                .flatMap(point -> table.reading(point).newestGood())
                .map(good -> good.value().text());
    }

    Optional<SitePoint> point(ControllerDefinition controller) {
        return Optional.ofNullable(points.get(controller));
    }

    /** Another controller that says that it is the same. */
    Optional<ControllerDefinition> sameAs(ControllerDefinition controller) {
        Optional<String> own = of(controller);
        return own.isEmpty()
                ? Optional.empty()
                : points.keySet().stream()
                        .filter(other -> !other.equals(controller) && own.equals(of(other)))
                        .findFirst();
    }
}
