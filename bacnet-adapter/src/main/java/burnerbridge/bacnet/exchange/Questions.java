package burnerbridge.bacnet.exchange;

import burnerbridge.bacnet.cov.Post.Reply;
import burnerbridge.model.BridgeClock;
import com.serotonin.bacnet4j.apdu.APDU;
import com.serotonin.bacnet4j.apdu.ConfirmedRequest;
import com.serotonin.bacnet4j.enums.MaxApduLength;
import com.serotonin.bacnet4j.enums.MaxSegments;
import com.serotonin.bacnet4j.service.confirmed.ConfirmedRequestService;
import com.serotonin.bacnet4j.type.constructed.Address;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Consumer;
import org.jspecify.annotations.Nullable;

/**
 * The confirmed requests that we sent and that are not answered yet (ASHRAE 135, 5.4.4). Their callers bound
 * how many there are. Safe for any number of threads; answers are told without the lock.
 */
final class Questions {
    private final Sender sender;
    private final Timing timing;
    private final BridgeClock clock;
    private final Map<Key, Question> open = new HashMap<>();
    private int nextInvokeId;

    private record Key(Address peer, byte invokeId) {}

    private static final class Question {
        private final Station to;
        private final APDU request;
        private final Consumer<Reply> done;
        private int attempts = 1;
        private long due;

        Question(Station to, APDU request, Consumer<Reply> done, long due) {
            this.to = to;
            this.request = request;
            this.done = done;
            this.due = due;
        }
    }

    Questions(Sender sender, Timing timing, BridgeClock clock) {
        this.sender = sender;
        this.timing = timing;
        this.clock = clock;
    }

    /**
     * Asks.
     *
     * @param to null where no way to the peer is known; then the silence is waited for all the same
     */
    void ask(Address peer, @Nullable Station to, ConfirmedRequestService service, Consumer<Reply> done) {
        ConfirmedRequest request;
        synchronized (this) {
            Key key = freeKey(peer);
            request = new ConfirmedRequest(
                    false,
                    false,
                    false,
                    MaxSegments.UNSPECIFIED,
                    MaxApduLength.UP_TO_1476,
                    key.invokeId(),
                    0,
                    0,
                    service);
            Station way = to == null ? new Station(peer, null) : to;
            open.put(key, new Question(way, request, done, clock.ticks() + timing.apduNanos()));
        }
        if (to != null) {
            sender.send(to, request);
        }
    }

    /** One peer never has more than a few open, so that there is a free one among 256. */
    private Key freeKey(Address peer) {
        Key key = new Key(peer, (byte) nextInvokeId++);
        while (open.containsKey(key)) {
            key = new Key(peer, (byte) nextInvokeId++);
        }
        return key;
    }

    void answered(Address peer, byte invokeId, Reply reply) {
        Question question;
        synchronized (this) {
            question = open.remove(new Key(peer, invokeId));
        }
        if (question != null) {
            question.done.accept(reply);
        }
    }

    /** Repeats what is due and gives up what was repeated often enough. */
    void step() {
        List<Question> repeated = new ArrayList<>();
        List<Question> givenUp = new ArrayList<>();
        long now = clock.ticks();
        synchronized (this) {
            open.values().removeIf(question -> isGivenUp(question, now, repeated, givenUp));
        }
        repeated.forEach(question -> sender.send(question.to, question.request));
        givenUp.forEach(question -> question.done.accept(Reply.SILENT));
    }

    private boolean isGivenUp(Question question, long now, List<Question> repeated, List<Question> givenUp) {
        if (question.due - now > 0) {
            return false;
        }
        if (question.attempts > timing.retries()) {
            givenUp.add(question);
            return true;
        }
        question.attempts++;
        question.due = now + timing.apduNanos();
        repeated.add(question);
        return false;
    }

    synchronized boolean isEmpty() {
        return open.isEmpty();
    }

    synchronized int count() {
        return open.size();
    }
}
