package burnerbridge.mqtt;

import burnerbridge.model.Stamp;
import burnerbridge.mqtt.broker.Broker.Event;
import burnerbridge.mqtt.broker.Broker.Session;
import burnerbridge.mqtt.broker.Broker.Wanted;
import burnerbridge.mqtt.broker.ReasonCode;
import burnerbridge.mqtt.topic.SiteTopics;
import burnerbridge.mqtt.topic.Teller;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * Reads back from a broker what this bridge described there before, has it forget the topics that are no
 * more, and only then describes anew: each broker remembers for itself what it was told, and a connection
 * that breaks in between loses nothing of that.
 */
final class ReadBack {
    /** After so long without a further description there is none. */
    static final long QUIET = TimeUnit.SECONDS.toNanos(1);
    /** The longest wait for the broker's answer, and for it to forget. */
    static final long LIMIT = TimeUnit.SECONDS.toNanos(10);

    private static final Logger LOG = LoggerFactory.getLogger(ReadBack.class);

    private enum Stage {
        RESTING,
        ASKING,
        LISTENING,
        FORGETTING
    }

    private final SiteTopics topics;
    private final Outbox outbox;
    private final List<Teller> lostDescriptions = new ArrayList<>();
    private Stage stage = Stage.RESTING;
    private long due;

    ReadBack(SiteTopics topics, Outbox outbox) {
        this.topics = topics;
        this.outbox = outbox;
    }

    /** A connection is there. */
    void opened(Session session, Stamp now) {
        lostDescriptions.clear();
        session.subscribe(topics.everyAbout(), Wanted.KEPT_AND_NEW);
        enter(Stage.ASKING, now.ticks() + LIMIT);
    }

    /** The connection is gone. */
    void closed() {
        stage = Stage.RESTING;
    }

    void granted(ReasonCode reason, Stamp now) {
        if (stage == Stage.ASKING) {
            if (reason.isFailure()) {
                LOG.warn(
                        "mqtt: the broker does not let {} be read ({}); topics of removed points stay there",
                        topics.everyAbout(),
                        reason.text());
            }
            enter(Stage.LISTENING, now.ticks() + (reason.isFailure() ? 0 : QUIET));
        }
    }

    /** Only what the broker had kept tells of the past; what comes later is the echo of our own. */
    void arrived(Event.Arrived about, Stamp now) {
        if (about.retained() && (stage == Stage.ASKING || stage == Stage.LISTENING)) {
            List<Teller> gone = topics.leftovers(about.topic(), about.payload().text());
            gone.forEach(teller -> remember(teller, about.topic()));
            if (!gone.isEmpty()) {
                LOG.info("mqtt: {} lists {} topics that are no more; they are cleared", about.topic(), gone.size());
            }
            due = now.ticks() + (stage == Stage.ASKING ? LIMIT : QUIET);
        }
    }

    /** The description itself goes last, so that it is there until all that it lists is forgotten. */
    private void remember(Teller gone, String about) {
        if (gone.topic().equals(about)) {
            lostDescriptions.add(gone);
        } else {
            outbox.forget(gone);
        }
    }

    void step(Session session, Stamp now) {
        boolean late = now.ticks() - due >= 0;
        if (late && (stage == Stage.ASKING || stage == Stage.LISTENING)) {
            session.unsubscribe(topics.everyAbout());
            enter(Stage.FORGETTING, now.ticks() + LIMIT);
        }
        if (stage == Stage.FORGETTING && (!outbox.isForgetting() || now.ticks() - due >= 0)) {
            lostDescriptions.forEach(outbox::forget);
            outbox.describe();
            stage = Stage.RESTING;
        }
    }

    /** The tick of the next thing to do here without an event, {@code otherwise} where there is none. */
    long nextDue(long otherwise) {
        return stage == Stage.RESTING ? otherwise : due;
    }

    private void enter(Stage next, long until) {
        stage = next;
        due = until;
    }
}
