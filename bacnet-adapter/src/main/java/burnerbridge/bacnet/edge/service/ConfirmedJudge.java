package burnerbridge.bacnet.edge.service;

import burnerbridge.bacnet.edge.coding.Octets;
import burnerbridge.bacnet.edge.coding.Parameters;
import burnerbridge.bacnet.edge.coding.RejectReason;
import burnerbridge.bacnet.edge.coding.TagWalk;
import java.util.Optional;

/** Judges confirmed requests (ASHRAE 135, 20.1.2). */
final class ConfirmedJudge {
    private static final int SEGMENTED = 0x08;
    private static final int ABORT_OTHER = 0;
    /** BACnetMaxAPDULength: 0 to 5 are given, the rest is reserved. */
    private static final int LARGEST_SIZE_CODE = 5;

    private final Writes writes;
    private final Subscriptions subscriptions;

    ConfirmedJudge(Writes writes, Subscriptions subscriptions) {
        this.writes = writes;
        this.subscriptions = subscriptions;
    }

    ApduVerdict judge(Octets apdu, Peer from) {
        boolean segmented = (apdu.at(0) & SEGMENTED) != 0;
        if (apdu.length() < (segmented ? 6 : 4)) {
            return new ApduVerdict.Drop(DropReason.MESSAGE_LENGTH);
        }
        int invokeId = apdu.at(2);
        if ((apdu.at(1) & 0x0F) > LARGEST_SIZE_CODE) {
            return ApduVerdict.abort(invokeId, ABORT_OTHER);
        }
        if (segmented) {
            return isTaken(apdu.at(5))
                    ? new ApduVerdict.Part()
                    : ApduVerdict.reject(invokeId, RejectReason.UNRECOGNIZED_SERVICE);
        }
        return service(apdu, from);
    }

    private boolean isTaken(int choice) {
        return WriteService.of(choice).isPresent()
                || TakenService.of(true, choice).isPresent();
    }

    private ApduVerdict service(Octets apdu, Peer from) {
        int invokeId = apdu.at(2);
        int choice = apdu.at(3);
        Octets data = apdu.from(4);
        Optional<WriteService> write = WriteService.of(choice);
        Optional<TakenService> service = TakenService.of(true, choice);
        if (write.isEmpty() && service.isEmpty()) {
            return ApduVerdict.reject(invokeId, RejectReason.UNRECOGNIZED_SERVICE);
        }
        if (!TagWalk.isSound(data)) {
            return ApduVerdict.reject(invokeId, RejectReason.INVALID_TAG);
        }
        if (write.isPresent()) {
            return writes.answer(write.get(), new Writes.Request(from, invokeId, apdu, data));
        }
        return taken(invokeId, service.orElseThrow(), new Parameters(data));
    }

    private ApduVerdict taken(int invokeId, TakenService service, Parameters parameters) {
        return switch (service) {
            case READ_PROPERTY -> {
                ReadRequests.one(parameters);
                yield passUnlessObjected(invokeId, parameters);
            }
            case READ_PROPERTY_MULTIPLE -> {
                ReadRequests.several(parameters);
                yield passUnlessObjected(invokeId, parameters);
            }
            case READ_RANGE -> {
                ReadRequests.range(parameters);
                yield passUnlessObjected(invokeId, parameters);
            }
            case SUBSCRIBE_COV -> subscriptions.judge(invokeId, parameters);
            case SUBSCRIBE_COV_PROPERTY -> subscriptions.judgeOfProperty(invokeId, parameters);
            case WHO_HAS, WHO_IS -> throw new IllegalStateException(service + " is not confirmed");
        };
    }

    static ApduVerdict passUnlessObjected(int invokeId, Parameters parameters) {
        return parameters
                .objection()
                .<ApduVerdict>map(reason -> ApduVerdict.reject(invokeId, reason))
                .orElse(ApduVerdict.PASS);
    }
}
