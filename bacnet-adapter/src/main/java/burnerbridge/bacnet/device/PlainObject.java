package burnerbridge.bacnet.device;

import com.serotonin.bacnet4j.obj.BACnetObject;
import com.serotonin.bacnet4j.type.Encodable;
import com.serotonin.bacnet4j.type.constructed.BACnetArray;
import com.serotonin.bacnet4j.type.enumerated.ObjectType;
import com.serotonin.bacnet4j.type.enumerated.PropertyIdentifier;
import java.util.Comparator;
import java.util.List;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/**
 * An object whose Property_List is in the order of the numbers. The library makes it anew at each read in an
 * order that changes, so that who reads it index by index misses some.
 */
abstract class PlainObject extends BACnetObject {
    /** What Property_List leaves out (ASHRAE 135, 12.1.1.4.1). */
    private static final Set<PropertyIdentifier> NOT_LISTED = Set.of(
            PropertyIdentifier.objectIdentifier,
            PropertyIdentifier.objectName,
            PropertyIdentifier.objectType,
            PropertyIdentifier.propertyList);

    PlainObject(IndexedDevice device, ObjectType type, int instance, String name) {
        super(device, type, instance, name);
    }

    @Override
    @SuppressWarnings({"unchecked", "TypeParameterUnusedInFormals"})
    public final <T extends Encodable> @Nullable T get(PropertyIdentifier property) {
        return property.equals(PropertyIdentifier.propertyList) ? (T) propertyList() : super.get(property);
    }

    private BACnetArray<PropertyIdentifier> propertyList() {
        List<PropertyIdentifier> listed = properties.keySet().stream()
                .filter(p -> !NOT_LISTED.contains(p))
                .sorted(Comparator.comparingInt(PropertyIdentifier::intValue))
                .toList();
        return new BACnetArray<>(listed);
    }
}
