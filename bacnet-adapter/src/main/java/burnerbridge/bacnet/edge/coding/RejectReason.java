package burnerbridge.bacnet.edge.coding;

/** BACnetRejectReason, as far as we give it (ASHRAE 135, 18.9 and clause 21). */
public enum RejectReason {
    INCONSISTENT_PARAMETERS(2),
    INVALID_PARAMETER_DATA_TYPE(3),
    INVALID_TAG(4),
    MISSING_REQUIRED_PARAMETER(5),
    PARAMETER_OUT_OF_RANGE(6),
    TOO_MANY_ARGUMENTS(7),
    UNRECOGNIZED_SERVICE(9);

    private final int number;

    RejectReason(int number) {
        this.number = number;
    }

    public int number() {
        return number;
    }
}
