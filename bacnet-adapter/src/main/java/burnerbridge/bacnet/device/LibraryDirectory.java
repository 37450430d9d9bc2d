package burnerbridge.bacnet.device;

import burnerbridge.bacnet.edge.coding.ObjectId;
import burnerbridge.bacnet.edge.coding.Octets;
import burnerbridge.bacnet.edge.service.ObjectDirectory;
import com.serotonin.bacnet4j.apdu.UnconfirmedRequest;
import com.serotonin.bacnet4j.obj.BACnetObject;
import com.serotonin.bacnet4j.type.Encodable;
import com.serotonin.bacnet4j.type.constructed.BACnetArray;
import com.serotonin.bacnet4j.type.enumerated.PropertyIdentifier;
import com.serotonin.bacnet4j.type.primitive.ObjectIdentifier;
import com.serotonin.bacnet4j.util.sero.ByteQueue;
import org.jspecify.annotations.Nullable;

/** Tells the edge about the device's objects. */
final class LibraryDirectory implements ObjectDirectory {
    private final IndexedDevice device;

    LibraryDirectory(IndexedDevice device) {
        this.device = device;
    }

    @Override
    public int deviceInstance() {
        return device.getInstanceNumber();
    }

    @Override
    public Octets iAm() {
        ByteQueue queue = new ByteQueue();
        new UnconfirmedRequest(device.getIAm()).write(queue);
        byte[] octets = queue.popAll();
        return Octets.copyOf(octets, octets.length);
    }

    @Override
    public boolean hasObject(ObjectId object) {
        return find(object) != null;
    }

    @Override
    public boolean hasProperty(ObjectId object, int property) {
        return value(object, property) != null;
    }

    @Override
    public boolean isArray(ObjectId object, int property) {
        return value(object, property) instanceof BACnetArray;
    }

    private @Nullable Encodable value(ObjectId object, int property) {
        BACnetObject found = find(object);
        return found == null ? null : found.get(PropertyIdentifier.forId(property));
    }

    private @Nullable BACnetObject find(ObjectId object) {
        return device.getObject(new ObjectIdentifier(object.type(), object.instance()));
    }
}
