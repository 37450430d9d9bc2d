package burnerbridge.mqtt;

import burnerbridge.model.Stamp;
import burnerbridge.mqtt.broker.Broker.Message;
import burnerbridge.mqtt.payload.Telling;
import burnerbridge.mqtt.topic.Teller;
import java.util.Optional;
import java.util.concurrent.TimeUnit;

/** One topic, and where its newest message is. Ticks are those of the injected clock. */
final class Topic {
    private static final long SECOND = TimeUnit.SECONDS.toNanos(1);
    /** The longest wait before a refused message is tried again. */
    static final long LONGEST_REFUSAL = 30 * SECOND;
    /** The shortest wait before looking again whether a reading was renewed. */
    static final long SHORTEST_LOOK = SECOND / 2;

    private enum Place {
        /** In line to be sent. */
        READY,
        /** Sent and not acknowledged. */
        UNDER_WAY,
        /** The broker has it. */
        TOLD,
        /** Refused by the broker, or not to be said just now: tried again at its appointment. */
        HELD,
        /** Owed, while there is no connection. */
        FORGOTTEN
    }

    private final Teller teller;
    private Place place = Place.FORGOTTEN;
    private long sequence;
    private long validFor;
    private long sentAtTicks;
    private boolean refused;

    Topic(Teller teller) {
        this.teller = teller;
    }

    String name() {
        return teller.topic();
    }

    long sentAtTicks() {
        return sentAtTicks;
    }

    boolean isUnderWay() {
        return place == Place.UNDER_WAY;
    }

    /** Whether only an appointment or news gets it going. */
    boolean isResting() {
        return place == Place.TOLD || place == Place.HELD;
    }

    /** Whether the broker has what is true now. */
    boolean isTold() {
        return place == Place.TOLD && !teller.hasNews();
    }

    /** Whether the broker would not have it. */
    boolean isRefused() {
        return place == Place.HELD && refused;
    }

    /** Whether a change is to be sent at once. A refused topic waits for its appointment. */
    boolean wantsToTellNews() {
        return (place == Place.TOLD && teller.hasNews()) || (place == Place.HELD && !refused);
    }

    /** At an appointment: whether there is anything to send. */
    boolean hasSomethingToTell() {
        return place == Place.HELD || teller.hasNews() || teller.canBeProlonged();
    }

    /** Whether it was not in line, nor under way, and now is in line. */
    boolean becomeReady() {
        if (place == Place.READY || place == Place.UNDER_WAY) {
            return false;
        }
        place = Place.READY;
        return true;
    }

    /** What to send; empty where nothing can be said just now. */
    Optional<Message> compose(Stamp now) {
        Optional<Telling> telling = teller.tell(now, sequence + 1);
        telling.ifPresent(said -> validFor = said.validFor());
        return telling.map(said -> new Message(
                teller.topic(), said.payload(), said.validFor(), teller.isRetained(), teller.correlation()));
    }

    void sent(Stamp now) {
        place = Place.UNDER_WAY;
        sequence++;
        sentAtTicks = now.ticks();
    }

    /** The broker has it. */
    void accepted() {
        place = Place.TOLD;
        refused = false;
        teller.told();
    }

    /** Whether what was said has to be said again before it holds no more. */
    boolean hasHeartbeat() {
        return validFor > 0;
    }

    /** The tick of its heartbeat: half of its validity after it was sent. */
    long heartbeatDue() {
        return sentAtTicks + heartbeat();
    }

    /** The broker refused it; returns the tick of the next try. */
    long refused(Stamp now) {
        place = Place.HELD;
        refused = true;
        return now.ticks() + Math.min(heartbeat(), LONGEST_REFUSAL);
    }

    /** Nothing can be said just now; returns the tick of the next look. */
    long held(Stamp now) {
        place = Place.HELD;
        refused = false;
        return now.ticks() + SHORTEST_LOOK;
    }

    /** Nothing newer to say than what the broker has; returns the tick of the next look. */
    long postponed(Stamp now) {
        long left = sentAtTicks + validFor * SECOND - now.ticks();
        return now.ticks() + Math.max(left / 2, SHORTEST_LOOK);
    }

    /** Nothing is owed but what is new. */
    void settle() {
        place = Place.TOLD;
        refused = false;
    }

    /** The connection is gone, and with it all that is known of what the broker has. */
    void forget() {
        place = Place.FORGOTTEN;
        refused = false;
    }

    /** Of what holds for ever: when a refused one is tried again. */
    private long heartbeat() {
        return validFor == 0 ? LONGEST_REFUSAL : validFor * SECOND / 2;
    }
}
