package burnerbridge.mqtt;

import burnerbridge.model.Stamp;
import burnerbridge.mqtt.broker.Broker.Message;
import burnerbridge.mqtt.broker.Broker.Session;
import burnerbridge.mqtt.broker.ReasonCode;
import burnerbridge.mqtt.topic.SiteTopics;
import burnerbridge.table.Change;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/**
 * What every topic is owed. It holds no messages: the value table has the newest of each, and a message
 * is made when it is sent. At most one message of a topic is under way, and no more in all than the
 * broker allows.
 */
final class Outbox {
    /** More under way at once would make nothing faster. */
    static final int WIDEST_WINDOW = 64;

    private final Topic bridge;
    private final List<Topic> controllers;
    private final Map<Integer, Topic> points = new LinkedHashMap<>();
    private final List<Topic> all = new ArrayList<>();
    private final Deque<Topic> ready = new ArrayDeque<>();
    private final Map<String, Topic> underWay = new LinkedHashMap<>();
    private final Appointments appointments = new Appointments();
    private final RefusalLog refusals = new RefusalLog();
    private int window;
    private boolean onlyTheBridge;
    private boolean stuck;

    Outbox(SiteTopics topics) {
        bridge = new Topic(topics.bridge());
        controllers = topics.controllers().stream().map(Topic::new).toList();
        topics.points().forEach((ordinal, teller) -> points.put(ordinal, new Topic(teller)));
        all.add(bridge);
        all.addAll(controllers);
        all.addAll(points.values());
    }

    /** A connection is there: everything is owed, for the broker may have forgotten everything. */
    void opened(int receiveMaximum) {
        closed();
        window = Math.min(receiveMaximum, WIDEST_WINDOW);
        if (onlyTheBridge) {
            makeReady(bridge);
        } else {
            all.forEach(this::makeReady);
        }
    }

    /** The connection is gone. */
    void closed() {
        window = 0;
        stuck = false;
        ready.clear();
        underWay.clear();
        appointments.clear();
        all.forEach(Topic::forget);
    }

    /** From now on nothing but the bridge's own link is sent. */
    void onlyTheBridge() {
        onlyTheBridge = true;
        ready.clear();
        if (window > 0 && !bridge.isUnderWay()) {
            bridge.forget();
            makeReady(bridge);
        }
    }

    /** Whether the broker has what the bridge's link says now. */
    boolean isBridgeTold() {
        return bridge.isTold();
    }

    void changed(Change change) {
        Topic topic = topicOf(change);
        if (topic != null && window > 0 && !onlyTheBridge && topic.wantsToTellNews()) {
            makeReady(topic);
        }
    }

    /** Hands over as much as may be under way. */
    void send(Session session, Stamp now) {
        stuck = false;
        for (Topic due = appointments.poll(now.ticks()); due != null; due = appointments.poll(now.ticks())) {
            keepAppointment(due, now);
        }
        while (!stuck && !ready.isEmpty() && underWay.size() < window) {
            send(ready.remove(), session, now);
        }
    }

    void answered(String name, ReasonCode reason, Stamp now) {
        Topic topic = underWay.remove(name);
        if (topic == null) {
            return;
        }
        if (reason.isFailure()) {
            refusals.refused(name, reason);
            appointments.make(topic, topic.refused(now));
        } else {
            refusals.accepted(name);
            appointments.make(topic, topic.accepted());
            if (topic.wantsToTellNews() && (!onlyTheBridge || topic == bridge)) {
                makeReady(topic);
            }
        }
    }

    boolean isAwaitingAnswers() {
        return !underWay.isEmpty();
    }

    /** Whether the connection would not take a message although it should. */
    boolean isStuck() {
        return stuck;
    }

    /** For how many nanoseconds the oldest message has waited for its acknowledgement; 0 where none does. */
    long oldestUnanswered(long nowTicks) {
        return underWay.isEmpty()
                ? 0
                : nowTicks - underWay.values().iterator().next().sentAtTicks();
    }

    /** The tick of the next thing to do here without an event, {@code otherwise} where there is none. */
    long nextDue(long nowTicks, long otherwise) {
        boolean canSend = !ready.isEmpty() && underWay.size() < window;
        return canSend ? nowTicks : appointments.soonest(otherwise);
    }

    private void keepAppointment(Topic topic, Stamp now) {
        if (!topic.isResting() || (onlyTheBridge && topic != bridge)) {
            return;
        }
        if (topic.hasSomethingToTell()) {
            makeReady(topic);
        } else {
            appointments.make(topic, topic.postponed(now));
        }
    }

    private void makeReady(Topic topic) {
        if (topic.becomeReady()) {
            ready.add(topic);
        }
    }

    private void send(Topic topic, Session session, Stamp now) {
        Optional<Message> message = topic.compose(now);
        if (message.isEmpty()) {
            appointments.make(topic, topic.held(now));
        } else if (session.publish(message.get())) {
            topic.sent(now);
            underWay.put(topic.name(), topic);
        } else {
            ready.addFirst(topic);
            stuck = true;
        }
    }

    private @Nullable Topic topicOf(Change change) {
        if (change instanceof Change.PointChanged changed) {
            return points.get(changed.point().ordinal());
        }
        return controllers.get(((Change.LinkChanged) change).controller().ordinal());
    }
}
