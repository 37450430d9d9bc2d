package burnerbridge.bacnet.edge;

import burnerbridge.bacnet.edge.service.AnswerKind;
import burnerbridge.bacnet.edge.service.DropReason;
import java.util.EnumMap;
import java.util.Map;
import java.util.concurrent.atomic.LongAdder;

/** What the port has done since it was made. Safe for any number of threads. */
public final class PortCounters {
    private final Map<DropReason, LongAdder> dropped = new EnumMap<>(DropReason.class);
    private final Map<AnswerKind, LongAdder> answered = new EnumMap<>(AnswerKind.class);
    private final LongAdder passed = new LongAdder();
    private final LongAdder unsent = new LongAdder();
    private final LongAdder octetsIn = new LongAdder();
    private final LongAdder octetsOut = new LongAdder();
    private final LongAdder datagramsIn = new LongAdder();
    private final LongAdder datagramsOut = new LongAdder();

    PortCounters() {
        for (DropReason reason : DropReason.values()) {
            dropped.put(reason, new LongAdder());
        }
        for (AnswerKind kind : AnswerKind.values()) {
            answered.put(kind, new LongAdder());
        }
    }

    void received(int octets) {
        octetsIn.add(octets);
        datagramsIn.increment();
    }

    void sent(int octets) {
        octetsOut.add(octets);
        datagramsOut.increment();
    }

    void passed() {
        passed.increment();
    }

    void dropped(DropReason reason) {
        adder(dropped, reason).increment();
    }

    void answered(AnswerKind kind) {
        adder(answered, kind).increment();
    }

    void unsent() {
        unsent.increment();
    }

    /** Datagrams that went on to the library. */
    public long passedCount() {
        return passed.sum();
    }

    /** Datagrams that were dropped for a reason. */
    public long droppedCount(DropReason reason) {
        return adder(dropped, reason).sum();
    }

    /** Datagrams that were answered at the edge. */
    public long answeredCount(AnswerKind kind) {
        return adder(answered, kind).sum();
    }

    /** Datagrams of ours that the operating system did not take. */
    public long unsentCount() {
        return unsent.sum();
    }

    /** Datagrams of others that came. */
    public long receivedCount() {
        return datagramsIn.sum();
    }

    /** Datagrams of ours that the operating system took. */
    public long sentCount() {
        return datagramsOut.sum();
    }

    /** Octets of UDP that came, of others. */
    public long octetsIn() {
        return octetsIn.sum();
    }

    /** Octets of UDP that left. */
    public long octetsOut() {
        return octetsOut.sum();
    }

    private static <K extends Enum<K>> LongAdder adder(Map<K, LongAdder> adders, K key) {
        LongAdder adder = adders.get(key);
        if (adder == null) {
            throw new IllegalStateException("no counter for " + key);
        }
        return adder;
    }
}
