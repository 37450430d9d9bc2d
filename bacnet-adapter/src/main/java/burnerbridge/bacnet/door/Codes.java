package burnerbridge.bacnet.door;

import burnerbridge.bacnet.edge.coding.Trouble;
import burnerbridge.write.ask.Question;

/** What of the standard says what the gate said. */
final class Codes {
    private Codes() {}

    /** @param ofType what it is where the value was no number that could be asked for */
    static Trouble of(Question question, Trouble ofType) {
        return switch (question) {
            case KNOWN_POINT, PERMIT, ROLE, PROTECTED, APPROVED, SOURCE -> Trouble.WRITE_ACCESS_DENIED;
            case TYPE -> ofType;
            case RANGE, STEP -> Trouble.VALUE_OUT_OF_RANGE;
            case INTERVAL -> Trouble.DEVICE_BUSY;
            case BUDGET -> Trouble.NO_SPACE_TO_WRITE_PROPERTY;
            case FRESH, IDENTITY, ANSWERING, RECORD -> Trouble.OPERATIONAL_PROBLEM;
        };
    }
}
