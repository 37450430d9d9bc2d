package burnerbridge.mqtt;

import burnerbridge.health.HealthSource;
import burnerbridge.health.Trouble;
import burnerbridge.model.Stamp;
import burnerbridge.mqtt.broker.Broker.Message;
import burnerbridge.mqtt.broker.Broker.Session;
import burnerbridge.mqtt.broker.ReasonCode;
import burnerbridge.mqtt.door.Reply;
import burnerbridge.mqtt.topic.SiteTopics;
import burnerbridge.mqtt.topic.Teller;
import burnerbridge.mqtt.watch.MqttFigures;
import burnerbridge.site.ControllerDefinition;
import burnerbridge.site.PointId;
import burnerbridge.table.Change;
import burnerbridge.write.WriteEvent;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Consumer;
import org.jspecify.annotations.Nullable;

/**
 * What every topic is owed. It holds no messages: the value table has the newest of each, and a message
 * is made when it is sent. At most one message of a topic is under way, and no more in all than the
 * broker allows.
 */
final class Outbox implements HealthSource {
    /** More under way at once would make nothing faster. */
    static final int WIDEST_WINDOW = 64;

    private final SiteTopics topics;
    private final Topic bridge;
    private final Topic bridgeEvents;
    private final List<Topic> controllers;
    private final List<Topic> controllerEvents;
    private final Map<Integer, Topic> points = new LinkedHashMap<>();
    private final Map<PointId, Topic> permits = new LinkedHashMap<>();
    private final List<Topic> abouts;
    /** What every broker must have that we are connected to. */
    private final List<Topic> states = new ArrayList<>();

    private final List<Topic> events = new ArrayList<>();
    /** Topics that the broker of this connection has to forget. */
    private final List<Topic> leftovers = new ArrayList<>();

    private final Deque<Topic> ready = new ArrayDeque<>();
    private final Map<String, Topic> underWay = new LinkedHashMap<>();
    private final MqttFigures figures;
    private final Replies replies;
    private final Appointments appointments = new Appointments();
    private final RefusalLog refusals = new RefusalLog();
    private int window;
    private boolean leaving;
    private boolean stuck;

    Outbox(SiteTopics topics, MqttFigures figures) {
        this.topics = topics;
        this.figures = figures;
        this.replies = new Replies(figures);
        bridge = new Topic(topics.bridge());
        bridgeEvents = new Topic(topics.bridgeEvents());
        controllers = all(topics.controllers());
        controllerEvents = all(topics.controllerEvents());
        abouts = all(topics.abouts());
        topics.points().forEach((ordinal, teller) -> points.put(ordinal, new Topic(teller)));
        topics.permits().forEach((point, teller) -> permits.put(point, new Topic(teller)));
        events.add(bridgeEvents);
        events.addAll(controllerEvents);
        states.add(bridge);
        states.addAll(controllers);
        states.addAll(points.values());
        states.addAll(permits.values());
    }

    private static List<Topic> all(List<Teller> tellers) {
        return tellers.stream().map(Topic::new).toList();
    }

    /** A connection is there: every state is owed, for the broker may have forgotten everything. */
    void opened(int receiveMaximum) {
        closed();
        window = Math.min(receiveMaximum, WIDEST_WINDOW);
        if (leaving) {
            makeReady(bridge);
        } else {
            makeReady(bridge);
            controllers.forEach(this::makeReady);
            events.forEach(this::resume);
            permits.values().forEach(this::makeReady);
            points.values().forEach(this::makeReady);
        }
    }

    /** The connection is gone. */
    void closed() {
        window = 0;
        stuck = false;
        ready.clear();
        underWay.clear();
        replies.closed();
        appointments.clear();
        leftovers.clear();
        states.forEach(Topic::forget);
        events.forEach(Topic::forget);
        abouts.forEach(Topic::forget);
    }

    /** From now on nothing but what happened to the bridge and its own link is sent. */
    void sayFarewell() {
        leaving = true;
        ready.clear();
        if (window > 0) {
            renew(bridgeEvents);
            renew(bridge);
        }
    }

    /** Whether the broker has all that is said in farewell, or refuses it. */
    boolean isFarewellSaid() {
        return bridge.isTold() && (bridgeEvents.isTold() || bridgeEvents.isRefused());
    }

    /** The descriptions are owed, once for this connection. */
    void describe() {
        if (window > 0 && !leaving) {
            abouts.forEach(this::makeReady);
        }
    }

    /** The broker of this connection has to forget a topic. */
    void forget(Teller gone) {
        if (window > 0 && !leaving) {
            Topic topic = new Topic(gone);
            leftovers.add(topic);
            makeReady(topic);
        }
    }

    /** Whether it did not answer yet to all that it has to forget. */
    boolean isForgetting() {
        return leftovers.stream().anyMatch(topic -> !topic.isResting());
    }

    void changed(Change change, Stamp now) {
        if (change instanceof Change.LinkChanged link) {
            topics.linkChanged(link.controller(), link.link(), now);
            tellNews(controllers.get(link.controller().ordinal()));
            tellNews(controllerEvents.get(link.controller().ordinal()));
        } else if (change instanceof Change.PointChanged point) {
            tellNews(points.get(point.point().ordinal()));
        }
    }

    /** Something became of a point that may be written. */
    void happened(ControllerDefinition controller, WriteEvent event, Stamp at) {
        topics.happened(controller, event, at);
        tellNews(controllerEvents.get(controller.ordinal()));
    }

    /** How a permit stands is another than before. */
    void permitChanged(PointId point) {
        topics.permitChanged(point);
        tellNews(permits.get(point));
    }

    /** An asker is owed an answer. */
    void reply(Reply reply, Stamp now) {
        replies.add(reply, now);
    }

    private void tellNews(@Nullable Topic topic) {
        if (topic != null && window > 0 && !leaving && topic.wantsToTellNews()) {
            makeReady(topic);
        }
    }

    /** Hands over as much as may be under way. */
    void send(Session session, Stamp now) {
        stuck = false;
        for (Topic due = appointments.poll(now.ticks()); due != null; due = appointments.poll(now.ticks())) {
            keepAppointment(due, now);
        }
        sendReplies(session, now);
        while (!stuck && !ready.isEmpty() && underWay.size() < window) {
            send(ready.remove(), session, now);
        }
    }

    void answered(String name, ReasonCode reason, Stamp now) {
        Topic topic = underWay.remove(name);
        if (topic == null) {
            return;
        }
        figures.answered(reason);
        if (replies.answered(topic)) {
            if (reason.isFailure()) {
                refusals.replyRefused(name, reason);
            }
            return;
        }
        if (reason.isFailure()) {
            refusals.refused(name, reason, now);
            appointments.make(topic, topic.refused(now));
        } else {
            refusals.accepted(name);
            topic.accepted();
            if (topic.hasHeartbeat()) {
                appointments.make(topic, topic.heartbeatDue());
            }
            if (topic.wantsToTellNews() && maySpeak(topic)) {
                makeReady(topic);
            }
        }
    }

    /** What waits now. */
    MqttFigures.Queues queues() {
        int owed = window > 0 ? ready.size() : states.size();
        return new MqttFigures.Queues(owed, underWay.size(), replies.count(), refusals.count());
    }

    @Override
    public void tell(Consumer<Trouble> troubles) {
        refusals.tell(troubles);
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
        // An answer that waits for another one on its topic goes when that is acknowledged, which is an event.
        return canSend ? nowTicks : appointments.soonest(otherwise);
    }

    /** Before all else: somebody waits. */
    private void sendReplies(Session session, Stamp now) {
        while (!stuck && !leaving && !replies.isEmpty() && underWay.size() < window) {
            Optional<Topic> next = replies.next(underWay.keySet(), now.ticks());
            if (next.isEmpty()) {
                return;
            }
            Topic reply = next.get();
            if (session.publish(reply.compose(now).orElseThrow())) {
                reply.sent(now);
                figures.sent();
                underWay.put(reply.name(), reply);
            } else {
                replies.back(reply);
                stuck = true;
            }
        }
    }

    private void keepAppointment(Topic topic, Stamp now) {
        if (!topic.isResting() || !maySpeak(topic)) {
            return;
        }
        if (topic.hasSomethingToTell()) {
            makeReady(topic);
        } else {
            appointments.make(topic, topic.postponed(now));
        }
    }

    private boolean maySpeak(Topic topic) {
        return !leaving || topic == bridge || topic == bridgeEvents;
    }

    /** What happened is not said again on another connection; only what was not said yet. */
    private void resume(Topic topic) {
        topic.settle();
        if (topic.wantsToTellNews()) {
            makeReady(topic);
        }
    }

    private void renew(Topic topic) {
        if (!topic.isUnderWay()) {
            topic.forget();
            makeReady(topic);
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
            figures.sent();
            underWay.put(topic.name(), topic);
        } else {
            ready.addFirst(topic);
            stuck = true;
        }
    }
}
