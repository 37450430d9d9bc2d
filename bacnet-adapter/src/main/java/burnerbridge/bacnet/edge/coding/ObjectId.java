package burnerbridge.bacnet.edge.coding;

/**
 * A BACnetObjectIdentifier (ASHRAE 135, 20.2.14).
 *
 * @param type 0 to 1023
 * @param instance 0 to 4194303
 */
public record ObjectId(int type, int instance) {
    public static final int DEVICE = 8;
    public static final int LAST_INSTANCE = 0x3FFFFF;

    public ObjectId {
        if (type < 0 || type > 0x3FF) {
            throw new IllegalArgumentException("an object type is 0 to 1023 (was " + type + ")");
        }
        if (instance < 0 || instance > LAST_INSTANCE) {
            throw new IllegalArgumentException("an instance is 0 to " + LAST_INSTANCE + " (was " + instance + ")");
        }
    }

    public static ObjectId ofNumber(long number) {
        return new ObjectId((int) (number >>> 22) & 0x3FF, (int) number & LAST_INSTANCE);
    }

    public long number() {
        return (long) type << 22 | instance;
    }
}
