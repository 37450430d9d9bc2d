package burnerbridge.site;

import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/**
 * One installation, loaded and free of errors.
 *
 * @param language that was chosen for its texts, by its code; empty where they are as they stand
 */
public record Site(
        Name name,
        String description,
        Optional<String> language,
        ZoneId zone,
        List<LineDefinition> lines,
        List<ControllerDefinition> controllers,
        Bindings bindings,
        Optional<BacnetSettings> bacnet,
        Optional<MqttSettings> mqtt) {

    public Site {
        lines = List.copyOf(lines);
        controllers = List.copyOf(controllers);
    }

    /** A site whose texts are as they stand. */
    public Site(
            Name name,
            String description,
            ZoneId zone,
            List<LineDefinition> lines,
            List<ControllerDefinition> controllers,
            Bindings bindings,
            Optional<BacnetSettings> bacnet,
            Optional<MqttSettings> mqtt) {
        this(name, description, Optional.empty(), zone, lines, controllers, bindings, bacnet, mqtt);
    }

    /** Every point of every controller, in the order of the controllers and of their lists. */
    public List<SitePoint> points() {
        List<SitePoint> points = new ArrayList<>();
        for (ControllerDefinition controller : controllers) {
            for (PointDefinition definition : controller.type().points()) {
                points.add(new SitePoint(points.size(), controller, definition));
            }
        }
        return List.copyOf(points);
    }
}
