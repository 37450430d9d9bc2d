package burnerbridge.bacnet.edge.service;

import burnerbridge.bacnet.edge.coding.ObjectId;
import burnerbridge.bacnet.edge.coding.Octets;
import burnerbridge.bacnet.edge.coding.Parameters;
import burnerbridge.bacnet.edge.coding.RejectReason;
import burnerbridge.bacnet.edge.coding.TagWalk;
import java.util.Optional;

/**
 * Judges unconfirmed requests (ASHRAE 135, 20.1.3). A Who-Is to us alone is answered to its sender alone
 * (16.10 lets the I-Am be a unicast; from memory): the library would tell everybody, at the port of this
 * network, which a tool that asks from a port of its own does not hear.
 */
final class UnconfirmedJudge {
    private static final int I_AM = 0;
    private static final int UNSIGNED = 2;
    private static final int ENUMERATED = 9;
    private static final int OBJECT_ID = 12;
    /** Of segmentation: none (clause 21, BACnetSegmentation). */
    private static final int LAST_SEGMENTATION = 3;

    private final ObjectDirectory directory;

    UnconfirmedJudge(ObjectDirectory directory) {
        this.directory = directory;
    }

    ApduVerdict judge(Octets apdu, boolean toAll) {
        if (apdu.length() < 2) {
            return new ApduVerdict.Drop(DropReason.MESSAGE_LENGTH);
        }
        Optional<TakenService> service = TakenService.of(false, apdu.at(1));
        if (service.isEmpty()) {
            if (apdu.at(1) == I_AM && isOfOwnInstance(apdu.from(2))) {
                return new ApduVerdict.OwnInstance();
            }
            return new ApduVerdict.Drop(DropReason.SERVICE_NOT_TAKEN);
        }
        Octets data = apdu.from(2);
        if (!TagWalk.isSound(data)) {
            return new ApduVerdict.Drop(DropReason.TAGS);
        }
        Parameters parameters = new Parameters(data);
        boolean meant = range(parameters);
        if (service.get() == TakenService.WHO_HAS) {
            sought(parameters);
        }
        parameters.end();
        if (parameters.objection().isPresent()) {
            return new ApduVerdict.Drop(DropReason.PARAMETERS);
        }
        if (!meant) {
            return new ApduVerdict.Drop(DropReason.OTHER_DEVICE);
        }
        return service.get() == TakenService.WHO_IS && !toAll
                ? new ApduVerdict.Answer(directory.iAm(), AnswerKind.I_AM)
                : ApduVerdict.PASS;
    }

    /**
     * Whether the parameters of an I-Am are sound and name our own device: its identifier, the longest message that it
     * takes, its segmentation and its vendor (16.10.1).
     */
    private boolean isOfOwnInstance(Octets data) {
        if (!TagWalk.isSound(data)) {
            return false;
        }
        Parameters parameters = new Parameters(data);
        ObjectId device =
                ObjectId.ofNumber(parameters.application(OBJECT_ID, 4, 4).number());
        parameters.application(UNSIGNED, 1, 4);
        long segmentation = parameters.application(ENUMERATED, 1, 1).number();
        parameters.application(UNSIGNED, 1, 2);
        parameters.end();
        return parameters.objection().isEmpty()
                && segmentation <= LAST_SEGMENTATION
                && device.equals(new ObjectId(ObjectId.DEVICE, directory.deviceInstance()));
    }

    /** Both limits of a range of device instances, or none (16.9 and 16.10); whether we are within. */
    private boolean range(Parameters parameters) {
        if (!parameters.next(0)) {
            return true;
        }
        long low = parameters.unsigned(0, ObjectId.LAST_INSTANCE);
        long high = parameters.unsigned(1, ObjectId.LAST_INSTANCE);
        return low <= directory.deviceInstance() && directory.deviceInstance() <= high;
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
