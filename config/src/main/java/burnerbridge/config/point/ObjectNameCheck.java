package burnerbridge.config.point;

import burnerbridge.config.meaning.ObjectNameCell;
import burnerbridge.config.problem.Problems;
import burnerbridge.config.problem.Problems.Place;
import burnerbridge.site.ControllerDefinition;
import burnerbridge.site.ObjectNames;
import burnerbridge.site.PointDefinition;
import burnerbridge.site.PointId;
import burnerbridge.site.PointOptions;
import burnerbridge.site.RequestObjects;
import burnerbridge.site.SitePoint;
import burnerbridge.site.permit.WritePermit;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;

/** Sees to it that no two objects of the device have one name (ASHRAE 135, 12.1.5; from memory). */
public final class ObjectNameCheck {
    private final ObjectNames names;
    private final PointLists lists;
    private final Problems problems;
    private final Map<String, String> holders = new HashMap<>();
    private final Map<String, SitePoint> points = new HashMap<>();
    private final Set<Place> told = new HashSet<>();

    /**
     * @param deviceName the device's own, which no object has
     * @param names how objects are named whose rows say nothing
     * @param lists where the cells stand
     */
    public ObjectNameCheck(String deviceName, ObjectNames names, PointLists lists, Problems problems) {
        this.names = names;
        this.lists = lists;
        this.problems = problems;
        holders.put(deviceName, "the device itself");
    }

    /** @param permits those of the permitted points have two more */
    public void run(List<ControllerDefinition> controllers, List<WritePermit> permits) {
        for (ControllerDefinition controller : controllers) {
            holders.put(names.ofView(controller), "the view of controller " + controller.name());
            holders.put(names.ofAnswers(controller), "whether controller " + controller.name() + " answers");
        }
        for (ControllerDefinition controller : controllers) {
            for (PointDefinition definition : controller.type().points()) {
                if (definition.wantsObject()) {
                    take(new SitePoint(0, controller, definition));
                }
            }
        }
        Map<PointId, WritePermit> byPoint = new HashMap<>();
        permits.forEach(permit -> byPoint.put(permit.point(), permit));
        for (ControllerDefinition controller : controllers) {
            for (PointDefinition definition : controller.type().points()) {
                SitePoint point = new SitePoint(0, controller, definition);
                Optional.ofNullable(byPoint.get(point.id()))
                        .flatMap(permit -> RequestObjects.of(definition, permit))
                        .ifPresent(objects -> takeBeside(point, objects));
            }
        }
    }

    private void takeBeside(SitePoint point, RequestObjects objects) {
        takeBeside(point, names.ofRequest(point), "the request object of ");
        if (objects.lease().isPresent()) {
            takeBeside(point, names.ofLease(point), "the lease object of ");
        }
    }

    private void takeBeside(SitePoint point, String name, String what) {
        String holder = holders.putIfAbsent(name, what + point.id());
        if (holder != null) {
            SitePoint other = points.getOrDefault(name, point);
            Place place = lists.place(
                    other.controller().type().name(), other.definition().name(), ObjectNameCell.COLUMN);
            if (told.add(place)) {
                problems.error(
                        place,
                        ObjectNameCell.COLUMN + ": " + holder + " has the name '" + name + "', which " + what
                                + point.id() + " needs for its write permit");
            }
        }
    }

    private void take(SitePoint point) {
        String name = names.of(point);
        String holder = holders.putIfAbsent(name, point.id().toString());
        SitePoint first = points.putIfAbsent(name, point);
        if (holder != null) {
            // Of two, one at least was given its name by its row.
            tell(isNamed(point) || first == null ? point : first, name, holder, point);
        }
    }

    private static boolean isNamed(SitePoint point) {
        return point.definition().options().objectName().isPresent();
    }

    private void tell(SitePoint named, String name, String holder, SitePoint second) {
        Place place =
                lists.place(named.controller().type().name(), named.definition().name(), ObjectNameCell.COLUMN);
        if (told.add(place)) {
            problems.error(
                    place,
                    ObjectNameCell.COLUMN + ": would name both " + holder + " and " + second.id() + " '" + name + "'; "
                            + PointOptions.CONTROLLER + " in it stands for the controller's name");
        }
    }
}
