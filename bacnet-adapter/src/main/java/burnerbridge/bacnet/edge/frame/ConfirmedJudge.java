package burnerbridge.bacnet.edge.frame;

import burnerbridge.bacnet.edge.coding.Octets;
import burnerbridge.bacnet.edge.coding.Parameters;
import burnerbridge.bacnet.edge.coding.RejectReason;
import burnerbridge.bacnet.edge.coding.TagWalk;
import java.util.Optional;

/** Judges confirmed requests (ASHRAE 135, 20.1.2). */
final class ConfirmedJudge {
    private static final int SEGMENTED = 0x08;
    private static final int ABORT_OTHER = 0;
    private static final int ABORT_SEGMENTATION_NOT_SUPPORTED = 4;
    /** BACnetMaxAPDULength: 0 to 5 are given, the rest is reserved. */
    private static final int LARGEST_SIZE_CODE = 5;

    private final WriteRefusal writes;

    ConfirmedJudge(WriteRefusal writes) {
        this.writes = writes;
    }

    ApduVerdict judge(Octets apdu) {
        boolean segmented = (apdu.at(0) & SEGMENTED) != 0;
        if (apdu.length() < (segmented ? 6 : 4)) {
            return new ApduVerdict.Drop(DropReason.MESSAGE_LENGTH);
        }
        int invokeId = apdu.at(2);
        if (segmented) {
            // A tag could hide across segments and reach the library whole, so none is taken.
            return ApduVerdict.abort(invokeId, ABORT_SEGMENTATION_NOT_SUPPORTED);
        }
        if ((apdu.at(1) & 0x0F) > LARGEST_SIZE_CODE) {
            return ApduVerdict.abort(invokeId, ABORT_OTHER);
        }
        return service(invokeId, apdu.at(3), apdu.from(4));
    }

    private ApduVerdict service(int invokeId, int choice, Octets data) {
        boolean write = writes.isFor(choice);
        Optional<TakenService> service = TakenService.of(true, choice);
        if (!write && service.isEmpty()) {
            return ApduVerdict.reject(invokeId, RejectReason.UNRECOGNIZED_SERVICE);
        }
        if (!TagWalk.isSound(data)) {
            return ApduVerdict.reject(invokeId, RejectReason.INVALID_TAG);
        }
        if (write) {
            return writes.refuse(invokeId, choice, data);
        }
        return taken(invokeId, service.orElseThrow(), new Parameters(data));
    }

    private static ApduVerdict taken(int invokeId, TakenService service, Parameters parameters) {
        return switch (service) {
            case READ_PROPERTY -> {
                ReadRequests.one(parameters);
                yield passUnlessObjected(invokeId, parameters);
            }
            case READ_PROPERTY_MULTIPLE -> {
                ReadRequests.several(parameters);
                yield passUnlessObjected(invokeId, parameters);
            }
            case SUBSCRIBE_COV -> Subscriptions.judge(invokeId, parameters);
            case WHO_HAS, WHO_IS -> throw new IllegalStateException(service + " is not confirmed");
        };
    }

    static ApduVerdict passUnlessObjected(int invokeId, Parameters parameters) {
        return parameters
                .objection()
                .map(reason -> ApduVerdict.reject(invokeId, reason))
                .orElse(ApduVerdict.PASS);
    }
}
