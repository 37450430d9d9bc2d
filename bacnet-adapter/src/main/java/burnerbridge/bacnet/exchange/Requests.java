package burnerbridge.bacnet.exchange;

import burnerbridge.bacnet.edge.LimitedLog;
import com.serotonin.bacnet4j.LocalDevice;
import com.serotonin.bacnet4j.apdu.APDU;
import com.serotonin.bacnet4j.apdu.Abort;
import com.serotonin.bacnet4j.apdu.ComplexACK;
import com.serotonin.bacnet4j.apdu.ConfirmedRequest;
import com.serotonin.bacnet4j.apdu.Error;
import com.serotonin.bacnet4j.apdu.Reject;
import com.serotonin.bacnet4j.apdu.SimpleACK;
import com.serotonin.bacnet4j.exception.BACnetAbortException;
import com.serotonin.bacnet4j.exception.BACnetErrorException;
import com.serotonin.bacnet4j.exception.BACnetException;
import com.serotonin.bacnet4j.exception.BACnetRejectException;
import com.serotonin.bacnet4j.service.acknowledgement.AcknowledgementService;
import com.serotonin.bacnet4j.service.confirmed.ConfirmedRequestService;
import com.serotonin.bacnet4j.service.confirmed.ReadRangeRequest;
import com.serotonin.bacnet4j.type.enumerated.AbortReason;
import com.serotonin.bacnet4j.type.enumerated.ErrorClass;
import com.serotonin.bacnet4j.type.enumerated.ErrorCode;
import com.serotonin.bacnet4j.type.enumerated.RejectReason;
import com.serotonin.bacnet4j.type.error.ErrorClassAndCode;
import com.serotonin.bacnet4j.util.sero.ByteQueue;
import java.util.concurrent.locks.Lock;
import org.jspecify.annotations.Nullable;

/**
 * Works out confirmed requests and answers them (ASHRAE 135, 5.4.5), each with exactly one message that names
 * the service that was asked for. Used by one thread.
 */
final class Requests {
    private static final int HEADER = 3;
    private static final int SEGMENT_HEADER = 5;

    private final LocalDevice device;
    private final Sender sender;
    private final SegmentedReplies segmented;
    private final Lock whole;
    private final LimitedLog trouble;

    Requests(LocalDevice device, Sender sender, SegmentedReplies segmented, Lock whole, LimitedLog trouble) {
        this.device = device;
        this.sender = sender;
        this.segmented = segmented;
        this.whole = whole;
        this.trouble = trouble;
    }

    void answer(Station from, ConfirmedRequest request) {
        if (segmented.isSending(from.address(), request.getInvokeId())) {
            return;
        }
        byte id = request.getInvokeId();
        byte choice = request.getServiceChoice();
        try {
            request.parseServiceData();
            acknowledge(from, request, handle(from, request));
        } catch (BACnetErrorException e) {
            // Some errors of the library name service 127, which the standard does not have.
            sender.send(from, new Error(id, choice, e.getBacnetError().getError()));
        } catch (BACnetRejectException e) {
            sender.send(from, new Reject(id, e.getRejectReason()));
        } catch (BACnetAbortException e) {
            sender.send(from, new Abort(true, id, e.getAbortReason()));
        } catch (BACnetException | RuntimeException e) {
            trouble.tell(e.getClass(), () -> "bacnet: service " + choice + " failed: " + e);
            sender.send(from, failure(request));
        }
    }

    /** A request that could not even be understood is rejected, one that could is an error of ours (18.9). */
    private static APDU failure(ConfirmedRequest request) {
        return request.getServiceRequest() == null
                ? new Reject(request.getInvokeId(), RejectReason.other)
                : new Error(
                        request.getInvokeId(),
                        request.getServiceChoice(),
                        new ErrorClassAndCode(ErrorClass.device, ErrorCode.operationalProblem));
    }

    private @Nullable AcknowledgementService handle(Station from, ConfirmedRequest request) throws BACnetException {
        ConfirmedRequestService service = request.getServiceRequest();
        whole.lock();
        try {
            return handled(from, request, service);
        } finally {
            whole.unlock();
        }
    }

    private @Nullable AcknowledgementService handled(
            Station from, ConfirmedRequest request, ConfirmedRequestService service) throws BACnetException {
        return service instanceof ReadRangeRequest range
                ? new ListReader(device).read(range, mostData(request))
                : service.handle(device, from.address());
    }

    private static int mostData(ConfirmedRequest request) {
        return request.getMaxApduLengthAccepted().getMaxLengthInt() - HEADER;
    }

    private void acknowledge(Station from, ConfirmedRequest request, @Nullable AcknowledgementService reply)
            throws BACnetAbortException {
        byte id = request.getInvokeId();
        if (reply == null) {
            sender.send(from, new SimpleACK(id, request.getServiceChoice()));
            return;
        }
        ByteQueue encoded = new ByteQueue();
        reply.write(encoded);
        if (encoded.size() <= mostData(request)) {
            sender.send(from, new ComplexACK(false, false, id, 0, 0, reply.getChoiceId(), encoded));
        } else {
            inSegments(from, request, reply.getChoiceId(), encoded.popAll());
        }
    }

    private void inSegments(Station from, ConfirmedRequest request, byte choice, byte[] data)
            throws BACnetAbortException {
        if (!request.isSegmentedResponseAccepted()) {
            throw new BACnetAbortException(AbortReason.segmentationNotSupported);
        }
        int length = request.getMaxApduLengthAccepted().getMaxLengthInt() - SEGMENT_HEADER;
        int segments = (data.length + length - 1) / length;
        if (segments > request.getMaxSegmentsAccepted().getMaxSegments()) {
            throw new BACnetAbortException(AbortReason.bufferOverflow);
        }
        if (!segmented.hasRoomFor(from.address(), data.length)) {
            throw new BACnetAbortException(AbortReason.outOfResources);
        }
        segmented.start(request.getInvokeId(), new SegmentedReply(from, request.getInvokeId(), choice, data, length));
    }
}
