package burnerbridge.mqtt.topic;

import burnerbridge.model.Stamp;
import burnerbridge.mqtt.payload.EventPayload;
import burnerbridge.mqtt.payload.Telling;
import java.util.ArrayDeque;
import java.util.Deque;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/**
 * Says what happened, in order, each thing until the broker has it. What happens while no broker is there
 * waits in memory, the newest {@value #MOST_WAITING} of a topic; how many older ones were given up is said
 * with the next.
 */
final class EventTeller implements Teller {
    static final int MOST_WAITING = 100;

    private final String topic;
    private final Deque<EventPayload> waiting = new ArrayDeque<>();
    private long givenUp;
    private @Nullable EventPayload said;
    private long saidGivenUp;

    EventTeller(String topic) {
        this.topic = topic;
    }

    void happened(EventPayload event) {
        if (waiting.size() == MOST_WAITING) {
            waiting.remove();
            givenUp++;
        }
        waiting.add(event);
    }

    @Override
    public String topic() {
        return topic;
    }

    @Override
    public Optional<Telling> tell(Stamp now, long sequence) {
        EventPayload next = waiting.peek();
        if (next == null) {
            return Optional.empty();
        }
        said = next;
        saidGivenUp = givenUp;
        return Optional.of(new Telling(next.json(now, givenUp), 0));
    }

    @Override
    public boolean hasNews() {
        return !waiting.isEmpty();
    }

    @Override
    public boolean canBeProlonged() {
        return false;
    }

    @Override
    public void told() {
        // Unless it was given up while it was under way.
        if (said == waiting.peek()) {
            waiting.poll();
        } else {
            givenUp--;
        }
        givenUp -= saidGivenUp;
    }

    @Override
    public boolean isRetained() {
        return false;
    }
}
