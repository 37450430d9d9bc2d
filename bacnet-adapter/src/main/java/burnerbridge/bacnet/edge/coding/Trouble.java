package burnerbridge.bacnet.edge.coding;

/** An error class with its code, as far as we give them (ASHRAE 135, clauses 18 and 21). */
public enum Trouble {
    UNKNOWN_OBJECT(1, 31),
    UNKNOWN_PROPERTY(2, 32),
    WRITE_ACCESS_DENIED(2, 40),
    PROPERTY_IS_NOT_AN_ARRAY(2, 50),
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
