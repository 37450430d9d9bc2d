package burnerbridge.bacnet.objects;

import com.serotonin.bacnet4j.LocalDevice;
import com.serotonin.bacnet4j.obj.BACnetObject;
import com.serotonin.bacnet4j.type.Encodable;
import com.serotonin.bacnet4j.type.constructed.BACnetArray;
import com.serotonin.bacnet4j.type.enumerated.ObjectType;
import com.serotonin.bacnet4j.type.enumerated.PropertyIdentifier;
import com.serotonin.bacnet4j.type.primitive.CharacterString;
import com.serotonin.bacnet4j.type.primitive.UnsignedInteger;
import java.util.Comparator;
import java.util.List;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/**
 * An object whose Property_List is in the order of the numbers. The library makes it anew at each read in an
 * order that changes, so that who reads it index by index misses some.
 */
public abstract class PlainObject extends BACnetObject {
    /** What Property_List leaves out (ASHRAE 135, 12.1.1.4.1). */
    private static final Set<PropertyIdentifier> NOT_LISTED = Set.of(
            PropertyIdentifier.objectIdentifier,
            PropertyIdentifier.objectName,
            PropertyIdentifier.objectType,
            PropertyIdentifier.propertyList);

    protected PlainObject(LocalDevice device, ObjectType type, int instance, String name) {
        super(device, type, instance, name);
    }

    @Override
    @SuppressWarnings({"unchecked", "TypeParameterUnusedInFormals"})
    public final <T extends Encodable> @Nullable T get(PropertyIdentifier property) {
        return (T) held(property);
    }

    /** What a property holds now; null where the object has no such property. */
    public @Nullable Encodable held(PropertyIdentifier property) {
        return property.equals(PropertyIdentifier.propertyList) ? propertyList() : super.get(property);
    }

    private BACnetArray<PropertyIdentifier> propertyList() {
        List<PropertyIdentifier> listed = properties.keySet().stream()
                .filter(p -> !NOT_LISTED.contains(p))
                .sorted(Comparator.comparingInt(PropertyIdentifier::intValue))
                .toList();
        return new BACnetArray<>(listed);
    }

    protected final void text(PropertyIdentifier property, String text) {
        set(property, new CharacterString(text));
    }

    protected final void number(PropertyIdentifier property, long number) {
        set(property, new UnsignedInteger(number));
    }
}
