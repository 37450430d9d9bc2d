package burnerbridge.bacnet.served;

import burnerbridge.bacnet.cov.CovDesk;
import burnerbridge.bacnet.door.Door;
import burnerbridge.bacnet.edge.LimitedLog;
import burnerbridge.bacnet.plan.ObjectChoices;
import burnerbridge.bacnet.plan.ObjectPlan;
import burnerbridge.bacnet.points.PointObject;
import burnerbridge.site.ControllerDefinition;
import burnerbridge.site.SitePoint;
import burnerbridge.table.Change;
import burnerbridge.table.ValueTable;
import com.serotonin.bacnet4j.LocalDevice;
import com.serotonin.bacnet4j.obj.BACnetObject;
import com.serotonin.bacnet4j.type.primitive.ObjectIdentifier;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/** The objects of a plan, and how what changes is shown in them. Changed by one thread. */
public final class ServedObjects {
    private final Map<SitePoint, PointObject> points = new LinkedHashMap<>();
    private final Map<ObjectIdentifier, SitePoint> byObject = new HashMap<>();
    private final Map<ControllerDefinition, AnswersObject> answers = new LinkedHashMap<>();
    private final List<ControllerDefinition> links = new ArrayList<>();
    private final List<ControllerView> views = new ArrayList<>();
    private final Door door;
    private final LimitedLog trouble;

    public ServedObjects(
            ObjectPlan plan, ObjectChoices choices, LocalDevice device, CovDesk desk, Door door, LimitedLog trouble) {
        this.door = door;
        this.trouble = trouble;
        Map<ControllerDefinition, List<BACnetObject>> byController = new HashMap<>();
        for (ObjectPlan.Served served : plan.served()) {
            PointObject object = PointObject.of(new PointObject.Frame(device, desk, served, choices));
            points.put(served.point(), object);
            byObject.put(object.getId(), served.point());
            byController
                    .computeIfAbsent(served.point().controller(), c -> new ArrayList<>())
                    .add(object);
        }
        for (ObjectPlan.OfController own : plan.controllers()) {
            links.add(own.controller());
            List<BACnetObject> objects = byController.computeIfAbsent(own.controller(), c -> new ArrayList<>());
            own.answers().ifPresent(name -> {
                AnswersObject object = new AnswersObject(device, desk, own.instance(), name);
                answers.put(own.controller(), object);
                objects.add(0, object);
            });
            objects.addAll(door.objectsOf(own.controller()));
            own.view()
                    .ifPresent(name ->
                            views.add(new ControllerView(device, own.controller(), own.instance(), name, objects)));
        }
    }

    /** All of them: views first, since who reads the list from its start wants to know what there is. */
    public List<BACnetObject> all() {
        List<BACnetObject> all = new ArrayList<>(views);
        all.addAll(answers.values());
        all.addAll(points.values());
        all.addAll(door.objects());
        return List.copyOf(all);
    }

    /** The point that an object shows; empty for those that the bridge adds. */
    public Optional<SitePoint> pointOf(BACnetObject object) {
        return Optional.ofNullable(byObject.get(object.getId()));
    }

    /** Shows what a table holds now. */
    public void catchUp(ValueTable table) {
        points.forEach((point, object) -> show(new Change.PointChanged(point, table.reading(point))));
        links.forEach(controller -> show(new Change.LinkChanged(controller, table.link(controller))));
    }

    /** Shows one change. One object over which the library stumbles does not keep the others from changing. */
    public void show(Change change) {
        try {
            if (change instanceof Change.PointChanged changed) {
                PointObject object = points.get(changed.point());
                if (object != null) {
                    object.apply(changed.reading());
                }
            } else if (change instanceof Change.LinkChanged changed) {
                AnswersObject object = answers.get(changed.controller());
                if (object != null) {
                    object.apply(changed.link());
                }
                door.show(changed.controller(), changed.link());
            }
        } catch (RuntimeException e) {
            trouble.tell(e.getClass(), () -> "bacnet: a change cannot be shown: " + change + ": " + e);
        }
    }
}
