package burnerbridge.bacnet.exchange;

import com.serotonin.bacnet4j.apdu.ComplexACK;
import com.serotonin.bacnet4j.apdu.SegmentACK;
import com.serotonin.bacnet4j.util.sero.ByteQueue;
import java.util.Arrays;

/**
 * A reply on its way in segments (ASHRAE 135, 5.4.5, SEGMENTED_RESPONSE): the first alone, then windows as
 * wide as the client says. A window that is not acknowledged is sent again from the first segment that is
 * missing.
 */
final class SegmentedReply {
    static final int PROPOSED_WINDOW = 16;

    private final Station to;
    private final byte invokeId;
    private final byte choice;
    private final byte[] data;
    private final int segmentLength;
    private final int count;
    /** The first segment that the client does not have yet. */
    private int first;

    private int window = 1;
    private int attempts = 1;
    private long due;

    SegmentedReply(Station to, byte invokeId, byte choice, byte[] data, int segmentLength) {
        this.to = to;
        this.invokeId = invokeId;
        this.choice = choice;
        this.data = data;
        this.segmentLength = segmentLength;
        this.count = (data.length + segmentLength - 1) / segmentLength;
    }

    int octets() {
        return data.length;
    }

    Station to() {
        return to;
    }

    boolean isDue(long now) {
        return due - now <= 0;
    }

    void sendWindow(Sender sender, long nextDue) {
        int end = Math.min(count, first + window);
        for (int index = first; index < end; index++) {
            sender.send(to, segment(index));
        }
        due = nextDue;
    }

    private ComplexACK segment(int index) {
        int from = index * segmentLength;
        byte[] part = Arrays.copyOfRange(data, from, Math.min(data.length, from + segmentLength));
        return new ComplexACK(
                true, index < count - 1, invokeId, index & 0xFF, PROPOSED_WINDOW, choice, new ByteQueue(part));
    }

    /** Counts one more attempt at the same window; false where there were enough. */
    boolean again(int retries) {
        return attempts++ <= retries;
    }

    /**
     * Takes an acknowledgement, which names the last segment that came in order. False where there is nothing
     * to send for it: it is of an earlier window, or says once more what was said.
     */
    boolean acknowledge(SegmentACK ack) {
        int end = Math.min(count, first + window);
        for (int index = Math.max(0, first - 1); index < end; index++) {
            if ((index & 0xFF) == ack.getSequenceNumber()) {
                boolean fresh = index >= first;
                attempts = fresh ? 1 : attempts;
                first = index + 1;
                window = Math.min(ack.getActualWindowSize(), PROPOSED_WINDOW);
                return fresh || ack.isNegativeAck();
            }
        }
        return false;
    }

    boolean isWhole() {
        return first >= count;
    }
}
