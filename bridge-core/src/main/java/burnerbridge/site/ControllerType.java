package burnerbridge.site;

import java.util.List;

/** A kind of controller: what all controllers of one make share. */
public record ControllerType(Name name, List<PointDefinition> points) {
    public ControllerType {
        points = List.copyOf(points);
    }
}
