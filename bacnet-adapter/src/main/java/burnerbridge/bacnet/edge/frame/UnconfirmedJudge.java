package burnerbridge.bacnet.edge.frame;

import burnerbridge.bacnet.edge.coding.ObjectId;
import burnerbridge.bacnet.edge.coding.Octets;
import burnerbridge.bacnet.edge.coding.Parameters;
import burnerbridge.bacnet.edge.coding.RejectReason;
import burnerbridge.bacnet.edge.coding.TagWalk;
import java.util.Optional;

/** Judges unconfirmed requests (ASHRAE 135, 20.1.3), which are never answered here. */
final class UnconfirmedJudge {
    private UnconfirmedJudge() {}

    static ApduVerdict judge(Octets apdu) {
        if (apdu.length() < 2) {
            return new ApduVerdict.Drop(DropReason.MESSAGE_LENGTH);
        }
        Optional<TakenService> service = TakenService.of(false, apdu.at(1));
        if (service.isEmpty()) {
            return new ApduVerdict.Drop(DropReason.SERVICE_NOT_TAKEN);
        }
        Octets data = apdu.from(2);
        if (!TagWalk.isSound(data)) {
            return new ApduVerdict.Drop(DropReason.TAGS);
        }
        Parameters parameters = new Parameters(data);
        range(parameters);
        if (service.get() == TakenService.WHO_HAS) {
            sought(parameters);
        }
        parameters.end();
        return parameters.objection().isEmpty() ? ApduVerdict.PASS : new ApduVerdict.Drop(DropReason.PARAMETERS);
    }

    /** Both limits of a range of device instances, or none (16.9 and 16.10). */
    private static void range(Parameters parameters) {
        if (parameters.next(0)) {
            parameters.unsigned(0, ObjectId.LAST_INSTANCE);
            parameters.unsigned(1, ObjectId.LAST_INSTANCE);
        }
    }

    private static void sought(Parameters parameters) {
        if (parameters.next(2)) {
            parameters.objectId(2);
            return;
        }
        Octets name = parameters.primitive(3, 1, Integer.MAX_VALUE);
        if (name.length() > 0 && !canDecode(name.at(0))) {
            parameters.refuse(RejectReason.INVALID_PARAMETER_DATA_TYPE);
        }
    }

    /** UTF-8, UCS-4, UCS-2 and ISO 8859-1 (20.2.9). */
    private static boolean canDecode(int characterSet) {
        return characterSet == 0 || characterSet == 3 || characterSet == 4 || characterSet == 5;
    }
}
