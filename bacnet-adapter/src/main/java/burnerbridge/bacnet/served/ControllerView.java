package burnerbridge.bacnet.served;

import burnerbridge.bacnet.objects.PlainObject;
import burnerbridge.site.ControllerDefinition;
import com.serotonin.bacnet4j.LocalDevice;
import com.serotonin.bacnet4j.obj.BACnetObject;
import com.serotonin.bacnet4j.type.constructed.BACnetArray;
import com.serotonin.bacnet4j.type.constructed.DeviceObjectReference;
import com.serotonin.bacnet4j.type.enumerated.NodeType;
import com.serotonin.bacnet4j.type.enumerated.ObjectType;
import com.serotonin.bacnet4j.type.enumerated.PropertyIdentifier;
import java.util.List;

/** All objects of a controller as a Structured View (ASHRAE 135, 12.29). */
final class ControllerView extends PlainObject {

    ControllerView(
            LocalDevice device,
            ControllerDefinition controller,
            int instance,
            String name,
            List<? extends BACnetObject> objects) {
        super(device, ObjectType.structuredView, instance, name);
        text(PropertyIdentifier.description, "Unit " + controller.unit() + " on line " + controller.line());
        set(PropertyIdentifier.nodeType, NodeType.equipment);
        text(PropertyIdentifier.nodeSubtype, controller.type().name().text());
        set(
                PropertyIdentifier.subordinateList,
                new BACnetArray<>(objects.stream()
                        .map(object -> new DeviceObjectReference(null, object.getId()))
                        .toList()));
    }
}
