package burnerbridge.mqtt;

import burnerbridge.model.Stamp;
import burnerbridge.mqtt.door.Reply;
import burnerbridge.mqtt.topic.ReplyTeller;
import burnerbridge.mqtt.watch.MqttFigures;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.HashMap;
import java.util.Iterator;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.TimeUnit;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * Answers to askers that the broker does not have yet, in their order. One that is older than anybody waits is dropped; a
 * connection that breaks costs none, so that one may come twice.
 */
final class Replies {
    /** One look at the door can answer sixteen asks of each point; more wait only where the broker does not keep up. */
    static final int MOST_WAITING = 4_096;

    private static final Logger LOG = LoggerFactory.getLogger(Replies.class);
    private static final long LIFE = TimeUnit.SECONDS.toNanos(Reply.LIFE_SECONDS);

    private final Deque<Waiting> waiting = new ArrayDeque<>();
    private final Map<Topic, Waiting> underWay = new HashMap<>();
    private final MqttFigures figures;
    private long dropped;

    private record Waiting(Topic topic, long madeAt) {}

    Replies(MqttFigures figures) {
        this.figures = figures;
    }

    void add(Reply reply, Stamp now) {
        if (waiting.size() + underWay.size() >= MOST_WAITING) {
            figures.replyTooMany();
            if (dropped++ == 0) {
                LOG.warn("mqtt: an answer on {} is dropped, since more wait than the broker takes", reply.topic());
            } else {
                LOG.debug("mqtt: an answer on {} is dropped; {} so far", reply.topic(), dropped);
            }
            return;
        }
        ReplyTeller teller = new ReplyTeller(reply.topic(), reply.payload(), reply.correlation(), Reply.LIFE_SECONDS);
        waiting.add(new Waiting(new Topic(teller), now.ticks()));
    }

    /**
     * The next to be sent.
     *
     * @param busy the topics of which a message is under way
     */
    Optional<Topic> next(Set<String> busy, long nowTicks) {
        for (Iterator<Waiting> all = waiting.iterator(); all.hasNext(); ) {
            Waiting next = all.next();
            if (nowTicks - next.madeAt >= LIFE) {
                all.remove();
                figures.replyTooLate();
                LOG.debug("mqtt: an answer on {} is dropped, since nobody waits for it any more", next.topic.name());
            } else if (!busy.contains(next.topic.name())) {
                all.remove();
                underWay.put(next.topic, next);
                return Optional.of(next.topic);
            }
        }
        return Optional.empty();
    }

    /** The connection would not take it. */
    void back(Topic topic) {
        Waiting again = underWay.remove(topic);
        if (again != null) {
            waiting.addFirst(again);
        }
    }

    /** Whether it was one of these, which is done now. */
    boolean answered(Topic topic) {
        return underWay.remove(topic) != null;
    }

    int count() {
        return waiting.size();
    }

    boolean isEmpty() {
        return waiting.isEmpty();
    }

    /** The connection is gone. */
    void closed() {
        List<Waiting> again = new ArrayList<>(underWay.values());
        underWay.clear();
        again.sort((a, b) -> Long.signum(b.madeAt - a.madeAt));
        again.forEach(waiting::addFirst);
    }
}
