package burnerbridge.bacnet.cov;

import java.util.EnumMap;
import java.util.Map;
import java.util.concurrent.atomic.LongAdder;

/** What became of notifications since the desk was made. Safe for any number of threads. */
public final class CovCounters {
    private final LongAdder unconfirmed = new LongAdder();
    private final LongAdder confirmed = new LongAdder();
    private final Map<Post.Reply, LongAdder> replies = new EnumMap<>(Post.Reply.class);

    CovCounters() {
        for (Post.Reply reply : Post.Reply.values()) {
            replies.put(reply, new LongAdder());
        }
    }

    void told() {
        unconfirmed.increment();
    }

    void asked() {
        confirmed.increment();
    }

    void answered(Post.Reply reply) {
        adder(reply).increment();
    }

    private LongAdder adder(Post.Reply reply) {
        LongAdder adder = replies.get(reply);
        if (adder == null) {
            throw new IllegalStateException("no counter for " + reply);
        }
        return adder;
    }

    /** Unconfirmed notifications that were handed on to be sent. */
    public long unconfirmedCount() {
        return unconfirmed.sum();
    }

    /** Confirmed notifications that were handed on to be sent, repetitions not counted. */
    public long confirmedCount() {
        return confirmed.sum();
    }

    /** Confirmed notifications that ended in such a way. */
    public long count(Post.Reply reply) {
        return adder(reply).sum();
    }
}
