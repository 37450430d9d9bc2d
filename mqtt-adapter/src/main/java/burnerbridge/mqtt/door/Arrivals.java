package burnerbridge.mqtt.door;

import burnerbridge.model.Stamp;
import burnerbridge.mqtt.broker.Broker.Event;
import burnerbridge.mqtt.broker.Dispatch;
import burnerbridge.mqtt.broker.Octets;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Queue;

/**
 * What came and was not looked at yet, so many of each point: whoever floods one keeps nobody from asking for another.
 * Safe for any number of threads; nothing waits.
 */
final class Arrivals {
    /** So many asks for one point wait. */
    static final int MOST_OF_ONE = 16;
    /** A longer payload is no ask; octets. */
    static final int LONGEST_PAYLOAD = 1_024;
    /** Octets of correlation data. */
    static final int LONGEST_CORRELATION = 128;
    /** Characters. */
    static final int LONGEST_TOPIC = 512;

    private static final String NO_TOPIC = "#";

    private final Map<String, Waiting> points = new LinkedHashMap<>();

    private static final class Waiting {
        private final AskPoint point;
        private final Queue<Arrival> arrivals = new ArrayDeque<>();
        private long leftOut;

        private Waiting(AskPoint point) {
            this.point = point;
        }
    }

    /** @param count how many were left out since this was asked last */
    record LeftOut(AskPoint point, long count) {}

    Arrivals(List<AskPoint> points) {
        points.forEach(point -> this.points.put(point.askTopic(), new Waiting(point)));
    }

    boolean takes(String topic) {
        return points.containsKey(topic);
    }

    synchronized void offer(Event.Arrived arrived, Stamp now) {
        Waiting waiting = points.get(arrived.topic());
        if (waiting == null) {
            return;
        }
        if (waiting.arrivals.size() >= MOST_OF_ONE) {
            waiting.leftOut++;
            return;
        }
        Octets payload = arrived.payload().length() > LONGEST_PAYLOAD ? Octets.NONE : arrived.payload();
        waiting.arrivals.add(new Arrival(
                waiting.point,
                now,
                payload,
                arrived.payload().length(),
                arrived.retained(),
                withinBounds(arrived.dispatch())));
    }

    /** What is longer than any that is taken is as good as none. */
    private static Dispatch withinBounds(Dispatch dispatch) {
        return new Dispatch(
                dispatch.responseTopic().length() > LONGEST_TOPIC ? NO_TOPIC : dispatch.responseTopic(),
                dispatch.correlation().length() > LONGEST_CORRELATION ? Octets.NONE : dispatch.correlation(),
                dispatch.expirySeconds());
    }

    /** Takes all that waits. */
    synchronized List<Arrival> take() {
        List<Arrival> taken = new ArrayList<>();
        points.values().forEach(waiting -> {
            taken.addAll(waiting.arrivals);
            waiting.arrivals.clear();
        });
        return taken;
    }

    /** Where more came than can wait. */
    synchronized List<LeftOut> leftOut() {
        List<LeftOut> all = new ArrayList<>();
        for (Waiting waiting : points.values()) {
            if (waiting.leftOut > 0) {
                all.add(new LeftOut(waiting.point, waiting.leftOut));
                waiting.leftOut = 0;
            }
        }
        return all;
    }
}
