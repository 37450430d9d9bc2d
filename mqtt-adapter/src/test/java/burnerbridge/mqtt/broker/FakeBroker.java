package burnerbridge.mqtt.broker;

import java.net.URI;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import java.util.function.Consumer;

/** A broker that does what a test says. */
public final class FakeBroker implements Broker {
    /** Every attempt, in order. */
    public final List<FakeSession> sessions = new ArrayList<>();

    @Override
    public Session open(URI address, Introduction introduction, Consumer<Event> events) {
        FakeSession session = new FakeSession(address, introduction, events);
        sessions.add(session);
        return session;
    }

    public FakeSession last() {
        return sessions.get(sessions.size() - 1);
    }

    /** One attempt and what came of it. */
    public static final class FakeSession implements Session {
        public final URI address;
        public final Introduction introduction;
        public final List<Message> sent = new ArrayList<>();
        /** The topics whose messages are under way. */
        public final Set<String> unanswered = new LinkedHashSet<>();

        public boolean answersAtOnce;
        public boolean takesNothing;
        /** The filters that are subscribed to. */
        public final Set<String> subscribed = new LinkedHashSet<>();

        public boolean wasEnded;
        public boolean wasCut;
        /** The most messages that were ever under way at once. */
        public int mostUnanswered;

        private final Consumer<Event> events;

        FakeSession(URI address, Introduction introduction, Consumer<Event> events) {
            this.address = address;
            this.introduction = introduction;
            this.events = events;
        }

        @Override
        public boolean publish(Message message) {
            if (takesNothing) {
                return false;
            }
            sent.add(message);
            if (!unanswered.add(message.topic())) {
                throw new AssertionError("two messages of " + message.topic() + " are under way");
            }
            mostUnanswered = Math.max(mostUnanswered, unanswered.size());
            if (answersAtOnce) {
                answer(message.topic(), 0);
            }
            return true;
        }

        /** Granted at once where messages are answered at once. */
        @Override
        public void subscribe(String filter, Wanted wanted) {
            subscribed.add(filter);
            if (answersAtOnce) {
                grant(filter, 0);
            }
        }

        @Override
        public void unsubscribe(String filter) {
            if (!subscribed.remove(filter)) {
                throw new AssertionError(filter + " is not subscribed to");
            }
        }

        /** Answers the one subscription there is. */
        public void grant(int reason) {
            grant(subscribed.iterator().next(), reason);
        }

        public void grant(String filter, int reason) {
            events.accept(new Event.Granted(this, filter, new ReasonCode(reason)));
        }

        /** A message that the broker had kept. */
        public void deliver(String topic, String payload) {
            deliver(topic, payload, true, Dispatch.NONE);
        }

        public void deliver(String topic, String payload, boolean retained, Dispatch dispatch) {
            events.accept(new Event.Arrived(this, topic, Octets.of(payload), retained, dispatch));
        }

        @Override
        public void end() {
            wasEnded = true;
        }

        @Override
        public void cut() {
            wasCut = true;
        }

        public void open(int receiveMaximum) {
            events.accept(new Event.Opened(this, receiveMaximum));
        }

        public void answer(String topic, int reason) {
            if (!unanswered.remove(topic)) {
                throw new AssertionError("nothing of " + topic + " is under way");
            }
            events.accept(new Event.Answered(this, topic, new ReasonCode(reason)));
        }

        public void answerAll() {
            List.copyOf(unanswered).forEach(topic -> answer(topic, 0));
        }

        public void tellEnd(int reason, String detail) {
            events.accept(new Event.Ended(this, new ReasonCode(reason), detail));
        }

        public List<String> topicsSent() {
            return sent.stream().map(Message::topic).toList();
        }

        /** The messages sent on a topic, oldest first. */
        public List<Message> sentOn(String topic) {
            return sent.stream().filter(m -> m.topic().equals(topic)).toList();
        }
    }
}
