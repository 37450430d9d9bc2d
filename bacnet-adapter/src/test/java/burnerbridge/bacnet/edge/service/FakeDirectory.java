package burnerbridge.bacnet.edge.service;

import burnerbridge.bacnet.edge.coding.Hex;
import burnerbridge.bacnet.edge.coding.ObjectId;
import burnerbridge.bacnet.edge.coding.Octets;

/** One object, Analog Input 5, with Present_Value, and the array Property_List. */
public final class FakeDirectory implements ObjectDirectory {

    @Override
    public int deviceInstance() {
        return 3;
    }

    /** ASHRAE 135, F.4.9 in its form: device 3, 1024 octets, no segmentation, vendor 99. */
    @Override
    public Octets iAm() {
        return Hex.octets("10 00 C4 02 00 00 03 22 04 00 91 03 21 63");
    }

    @Override
    public boolean hasObject(ObjectId object) {
        return object.equals(new ObjectId(0, 5));
    }

    @Override
    public boolean hasProperty(ObjectId object, int property) {
        return property == 85 || property == 371;
    }

    @Override
    public boolean isArray(ObjectId object, int property) {
        return property == 371;
    }
}
