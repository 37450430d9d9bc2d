package burnerbridge.site;

import burnerbridge.site.permit.Purpose;
import burnerbridge.site.permit.WritePermit;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Stream;

/**
 * One installation, loaded and free of errors.
 *
 * @param permits what may be written once a person has approved it; empty: the bridge only reads
 * @param web over which health and metrics are asked for; empty: no port is opened
 * @param language that was chosen for its texts, by its code; empty where they are as they stand
 */
public record Site(
        Name name,
        String description,
        Optional<String> language,
        ZoneId zone,
        List<LineDefinition> lines,
        List<ControllerDefinition> controllers,
        List<ControllerDefinition> groups,
        Bindings bindings,
        Optional<BacnetSettings> bacnet,
        Optional<MqttSettings> mqtt,
        List<WritePermit> permits,
        Optional<WebSettings> web) {

    public Site {
        permits = List.copyOf(permits);
        lines = List.copyOf(lines);
        controllers = List.copyOf(controllers);
        groups = List.copyOf(groups);
    }

    /** A site that serves neither health nor metrics. */
    public Site(
            Name name,
            String description,
            Optional<String> language,
            ZoneId zone,
            List<LineDefinition> lines,
            List<ControllerDefinition> controllers,
            List<ControllerDefinition> groups,
            Bindings bindings,
            Optional<BacnetSettings> bacnet,
            Optional<MqttSettings> mqtt,
            List<WritePermit> permits) {
        this(
                name,
                description,
                language,
                zone,
                lines,
                controllers,
                groups,
                bindings,
                bacnet,
                mqtt,
                permits,
                Optional.empty());
    }

    /** The same in which nothing can be written. */
    public Site(
            Name name,
            String description,
            Optional<String> language,
            ZoneId zone,
            List<LineDefinition> lines,
            List<ControllerDefinition> controllers,
            List<ControllerDefinition> groups,
            Bindings bindings,
            Optional<BacnetSettings> bacnet,
            Optional<MqttSettings> mqtt) {
        this(name, description, language, zone, lines, controllers, groups, bindings, bacnet, mqtt, List.of());
    }

    /** The same with other permits. */
    public Site with(List<WritePermit> others) {
        return new Site(
                name, description, language, zone, lines, controllers, groups, bindings, bacnet, mqtt, others, web);
    }

    /** A site without groups whose texts are as they stand. */
    public Site(
            Name name,
            String description,
            ZoneId zone,
            List<LineDefinition> lines,
            List<ControllerDefinition> controllers,
            Bindings bindings,
            Optional<BacnetSettings> bacnet,
            Optional<MqttSettings> mqtt) {
        this(name, description, Optional.empty(), zone, lines, controllers, List.of(), bindings, bacnet, mqtt);
    }

    /** All that has points, in the order of the ordinals: the controllers, then the groups. */
    public List<ControllerDefinition> owners() {
        return Stream.concat(controllers.stream(), groups.stream()).toList();
    }

    /** What others may ask of each point that they may ask for; worked out anew each time. */
    public Map<PointId, Purpose.Asked> asked() {
        Map<PointId, Purpose.Asked> asked = new HashMap<>();
        permits.forEach(permit -> permit.asked().ifPresent(terms -> asked.put(permit.point(), terms)));
        return asked;
    }

    /** Every point of every controller and group, in their order and that of their lists. */
    public List<SitePoint> points() {
        List<SitePoint> points = new ArrayList<>();
        for (ControllerDefinition controller : owners()) {
            for (PointDefinition definition : controller.type().points()) {
                points.add(new SitePoint(points.size(), controller, definition));
            }
        }
        return List.copyOf(points);
    }
}
