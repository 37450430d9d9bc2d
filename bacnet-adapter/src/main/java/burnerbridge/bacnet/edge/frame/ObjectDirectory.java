package burnerbridge.bacnet.edge.frame;

import burnerbridge.bacnet.edge.coding.ObjectId;

/**
 * What a refused write must know of the device's objects, so that it is refused with the right error. Asked
 * on the port's own thread; answers at once and never throws.
 */
public interface ObjectDirectory {

    boolean hasObject(ObjectId object);

    /** Whether an existing object has a property of this number. */
    boolean hasProperty(ObjectId object, int property);

    /** Whether an existing property is an array. */
    boolean isArray(ObjectId object, int property);
}
