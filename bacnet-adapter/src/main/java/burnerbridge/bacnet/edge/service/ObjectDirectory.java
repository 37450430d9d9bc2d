package burnerbridge.bacnet.edge.service;

import burnerbridge.bacnet.edge.coding.ObjectId;
import burnerbridge.bacnet.edge.coding.Octets;

/**
 * What the edge must know of the device to answer for it: a refused write the right error, a Who-Is the
 * I-Am. Asked on the port's own thread; answers at once and never throws.
 */
public interface ObjectDirectory {

    int deviceInstance();

    /** The device's I-Am as the octets of an unconfirmed request (ASHRAE 135, 16.10). */
    Octets iAm();

    boolean hasObject(ObjectId object);

    /** Whether an existing object has a property of this number. */
    boolean hasProperty(ObjectId object, int property);

    /** Whether an existing property is an array. */
    boolean isArray(ObjectId object, int property);
}
