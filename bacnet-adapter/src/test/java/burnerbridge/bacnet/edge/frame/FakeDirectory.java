package burnerbridge.bacnet.edge.frame;

import burnerbridge.bacnet.edge.coding.ObjectId;

/** One object, Analog Input 5, with Present_Value, and the array Property_List. */
final class FakeDirectory implements ObjectDirectory {

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
