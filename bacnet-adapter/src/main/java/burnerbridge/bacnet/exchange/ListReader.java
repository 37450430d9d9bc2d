package burnerbridge.bacnet.exchange;

import com.serotonin.bacnet4j.LocalDevice;
import com.serotonin.bacnet4j.exception.BACnetErrorException;
import com.serotonin.bacnet4j.exception.BACnetServiceException;
import com.serotonin.bacnet4j.obj.BACnetObject;
import com.serotonin.bacnet4j.service.acknowledgement.ReadRangeAck;
import com.serotonin.bacnet4j.service.confirmed.ReadRangeRequest;
import com.serotonin.bacnet4j.type.Encodable;
import com.serotonin.bacnet4j.type.constructed.BACnetArray;
import com.serotonin.bacnet4j.type.constructed.ResultFlags;
import com.serotonin.bacnet4j.type.constructed.SequenceOf;
import com.serotonin.bacnet4j.type.enumerated.ErrorClass;
import com.serotonin.bacnet4j.type.enumerated.ErrorCode;
import com.serotonin.bacnet4j.type.primitive.UnsignedInteger;
import com.serotonin.bacnet4j.util.sero.ByteQueue;

/**
 * ReadRange on lists (ASHRAE 135, 15.8). Returns as many items as fit into one message and says whether there
 * are more. None of our lists has numbered or timed items.
 */
final class ListReader {
    /** What an acknowledgement has around its items, with an array index and the widest numbers. */
    private static final int AROUND = 40;

    /** Newer than the library's table: list-item-not-numbered and list-item-not-timestamped (clause 21). */
    private static final ErrorCode NOT_NUMBERED = ErrorCode.forId(140);

    private static final ErrorCode NOT_TIMED = ErrorCode.forId(141);

    private final LocalDevice device;

    /** Items from an index for a count, both within the list. */
    private record Range(int from, int count) {
        static final Range NONE = new Range(0, 0);
    }

    ListReader(LocalDevice device) {
        this.device = device;
    }

    /** @param octets what the reply may have */
    ReadRangeAck read(ReadRangeRequest request, int octets) throws BACnetErrorException {
        try {
            SequenceOf<? extends Encodable> list = list(request);
            return fitting(request, list, asked(request, list.size()), octets - AROUND);
        } catch (BACnetServiceException e) {
            throw new BACnetErrorException(request.getChoiceId(), e);
        }
    }

    private SequenceOf<? extends Encodable> list(ReadRangeRequest request) throws BACnetServiceException {
        BACnetObject object = device.getObjectRequired(request.getObjectIdentifier());
        Encodable value = object.readPropertyRequired(request.getPropertyIdentifier(), request.getPropertyArrayIndex());
        // The library's arrays are lists too; the standard's are not.
        if (value instanceof SequenceOf<?> list && !(value instanceof BACnetArray<?>)) {
            return list;
        }
        throw new BACnetServiceException(ErrorClass.services, ErrorCode.propertyIsNotAList);
    }

    private static Range asked(ReadRangeRequest request, int size) throws BACnetServiceException {
        if (isOfWhole(request)) {
            return new Range(0, size);
        }
        if (request.isBySequenceNumber()) {
            throw new BACnetServiceException(ErrorClass.property, NOT_NUMBERED);
        }
        if (request.isByTime()) {
            throw new BACnetServiceException(ErrorClass.property, NOT_TIMED);
        }
        return byPosition(request.getByPosition(), size);
    }

    /** The library's request does not say whether it has a range, but is equal to one without. */
    private static boolean isOfWhole(ReadRangeRequest request) {
        return request.equals(new ReadRangeRequest(
                request.getObjectIdentifier(), request.getPropertyIdentifier(), request.getPropertyArrayIndex()));
    }

    /** A negative count goes backwards from the item that is named, which is then the last (15.8.1.1.4.1). */
    private static Range byPosition(ReadRangeRequest.ByPosition position, int size) {
        long named = position.getReferenceIndex().longValue();
        long count = position.getCount().longValue();
        if (named < 1 || named > size) {
            return Range.NONE;
        }
        long from = count > 0 ? named - 1 : Math.max(0, named + count);
        long end = count > 0 ? Math.min(size, named - 1 + count) : named;
        return new Range((int) from, (int) (end - from));
    }

    private static ReadRangeAck fitting(
            ReadRangeRequest request, SequenceOf<? extends Encodable> list, Range range, int octets) {
        SequenceOf<Encodable> items = new SequenceOf<>();
        int room = octets;
        for (int index = range.from(); index < range.from() + range.count(); index++) {
            room -= length(list.get(index));
            if (room < 0) {
                break;
            }
            items.add(list.get(index));
        }
        boolean first = items.size() > 0 && range.from() == 0;
        boolean last = items.size() > 0 && range.from() + items.size() == list.size();
        return new ReadRangeAck(
                request.getObjectIdentifier(),
                request.getPropertyIdentifier(),
                request.getPropertyArrayIndex(),
                new ResultFlags(first, last, items.size() < range.count()),
                new UnsignedInteger(items.size()),
                items,
                null);
    }

    private static int length(Encodable item) {
        ByteQueue encoded = new ByteQueue();
        item.write(encoded);
        return encoded.size();
    }
}
