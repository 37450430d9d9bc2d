package burnerbridge.bacnet.objects;

import burnerbridge.model.Reason;
import com.serotonin.bacnet4j.type.enumerated.Reliability;

/** What BACnet calls the reasons of readings. Anything but no-fault-detected sets the fault flag. */
public final class Reliabilities {
    /** Newer than the library's table (BACnetReliability, clause 21; number from memory). */
    private static final Reliability MULTI_STATE_OUT_OF_RANGE = Reliability.forId(25);

    private Reliabilities() {}

    /**
     * The reliability of an object.
     *
     * @param ofStates whether the object is a multi-state one, for which a state without a text is a fault
     */
    public static Reliability of(Reason reason, boolean ofStates) {
        return switch (reason) {
            case NONE, NOT_APPLICABLE -> Reliability.noFaultDetected;
            case UNKNOWN_STATE -> ofStates ? MULTI_STATE_OUT_OF_RANGE : Reliability.noFaultDetected;
            case NO_REPLY, LINE_DOWN -> Reliability.communicationFailure;
            case NOT_READ_YET, NOT_A_NUMBER, UNREADABLE -> Reliability.unreliableOther;
            case REFUSED -> Reliability.configurationError;
            case NO_SENSOR -> Reliability.noSensor;
            case OVER_RANGE -> Reliability.overRange;
            case UNDER_RANGE -> Reliability.underRange;
        };
    }
}
