package burnerbridge.bacnet.edge.coding;

/** An error class with its code, as far as we give them (ASHRAE 135, clauses 18 and 21; numbers from memory). */
public enum Trouble {
    UNKNOWN_OBJECT(1, 31),
    UNKNOWN_PROPERTY(2, 32),
    WRITE_ACCESS_DENIED(2, 40),
    PROPERTY_IS_NOT_AN_ARRAY(2, 50),
    INVALID_DATA_TYPE(2, 9),
    VALUE_OUT_OF_RANGE(2, 37),
    /** It may be written, and not just now. */
    DEVICE_BUSY(0, 3),
    /** Something that the device needs for it is not as it should be. */
    OPERATIONAL_PROBLEM(0, 25),
    /** What a write uses up is used up. */
    NO_SPACE_TO_WRITE_PROPERTY(3, 20),
    /** A lifetime that we do not give; class from memory. */
    LIFETIME_OUT_OF_RANGE(5, 37);

    private final int errorClass;
    private final int code;

    Trouble(int errorClass, int code) {
        this.errorClass = errorClass;
        this.code = code;
    }

    public int errorClass() {
        return errorClass;
    }

    public int code() {
        return code;
    }
}
