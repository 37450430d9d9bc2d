package burnerbridge.bacnet.edge.frame;

import burnerbridge.bacnet.edge.coding.Octets;
import burnerbridge.bacnet.edge.service.AnswerKind;
import burnerbridge.bacnet.edge.service.DropReason;
import java.util.HashMap;
import java.util.List;
import java.util.Map;

/**
 * Puts segmented requests together before they are judged, as a tag may lie across two segments
 * (ASHRAE 135, 5.4.5, SEGMENTED_REQUEST). Bounded in requests and in the octets of each; takes segments in
 * their order only and asks again for what is missing. Safe for any number of threads.
 */
public final class Assemblies {
    private static final int ABORT_BUFFER_OVERFLOW = 1;
    private static final int ABORT_WINDOW_SIZE = 7;
    private static final int ABORT_OUT_OF_RESOURCES = 9;
    private static final int WIDEST_OF_STANDARD = 127;

    private final FrameJudge judge;
    private final Map<Segment.Key, Assembly> open = new HashMap<>();

    public Assemblies(FrameJudge judge) {
        this.judge = judge;
    }

    /** What becomes of a segment: at most an answer to it, and with the last the verdict on the whole. */
    public synchronized List<Verdict> take(Verdict.Part part, long now) {
        open.values().removeIf(assembly -> assembly.isGivenUp(now));
        Segment segment = part.segment();
        Assembly assembly = open.get(segment.key());
        if (assembly == null) {
            return start(segment, now);
        }
        if (!assembly.isNext(segment)) {
            return List.of(answer(segment, assembly.acknowledgement(true), AnswerKind.SEGMENT_ACK));
        }
        return add(segment, assembly, now);
    }

    private List<Verdict> start(Segment segment, long now) {
        if (segment.sequenceNumber() != 0) {
            return List.of(new Verdict.Drop(DropReason.SEGMENT));
        }
        if (segment.proposedWindow() < 1 || segment.proposedWindow() > WIDEST_OF_STANDARD) {
            return abort(segment, ABORT_WINDOW_SIZE);
        }
        long ofPeer = open.keySet().stream()
                .filter(key -> key.source().equals(segment.source()))
                .count();
        if (open.size() >= SegmentLimits.MOST_REQUESTS || ofPeer >= SegmentLimits.MOST_OF_PEER) {
            return abort(segment, ABORT_OUT_OF_RESOURCES);
        }
        Assembly assembly = new Assembly(segment);
        open.put(segment.key(), assembly);
        return add(segment, assembly, now);
    }

    private List<Verdict> add(Segment segment, Assembly assembly, long now) {
        assembly.take(segment, now);
        if (segment.moreFollows()) {
            if (assembly.isFull()) {
                open.remove(segment.key());
                return abort(segment, ABORT_BUFFER_OVERFLOW);
            }
            return assembly.isToBeAcknowledged() ? List.of(positive(segment, assembly)) : List.of();
        }
        open.remove(segment.key());
        return List.of(positive(segment, assembly), judge.whole(segment, assembly.whole()));
    }

    private static Verdict positive(Segment segment, Assembly assembly) {
        return answer(segment, assembly.acknowledgement(false), AnswerKind.SEGMENT_ACK);
    }

    private static List<Verdict> abort(Segment segment, int reason) {
        return List.of(answer(segment, Octets.of(0x71, segment.invokeId(), reason), AnswerKind.ABORT));
    }

    private static Verdict answer(Segment segment, Octets apdu, AnswerKind kind) {
        return new Verdict.Answer(FrameJudge.reply(segment.header(), apdu), kind);
    }

    /** Requests of which something is there. */
    synchronized int count() {
        return open.size();
    }
}
