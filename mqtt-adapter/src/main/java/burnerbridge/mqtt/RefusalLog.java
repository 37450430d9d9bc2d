package burnerbridge.mqtt;

import burnerbridge.health.HealthSource;
import burnerbridge.health.Trouble;
import burnerbridge.model.Stamp;
import burnerbridge.mqtt.broker.ReasonCode;
import burnerbridge.mqtt.watch.BrokerTroubles;
import java.util.HashSet;
import java.util.Optional;
import java.util.Set;
import java.util.function.Consumer;
import org.jspecify.annotations.Nullable;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/** Tells which topics a broker refuses: each once, and after a number of them only that there are more. */
final class RefusalLog implements HealthSource {
    static final int MOST_TOLD = 20;
    private static final Logger LOG = LoggerFactory.getLogger(RefusalLog.class);

    private final Set<String> refused = new HashSet<>();
    private long repliesRefused;
    private @Nullable Stamp since;
    private volatile Optional<Trouble> trouble = Optional.empty();

    void refused(String topic, ReasonCode reason, Stamp now) {
        if (since == null) {
            since = now;
        }
        note(topic, reason, since);
    }

    private void note(String topic, ReasonCode reason, Stamp first) {
        if (!refused.add(topic)) {
            LOG.debug("mqtt: {} is still refused ({})", topic, reason.text());
        } else if (refused.size() <= MOST_TOLD) {
            LOG.warn("mqtt: the broker refuses {} ({}); it is tried again when it is next due", topic, reason.text());
        } else if (refused.size() == MOST_TOLD + 1) {
            LOG.warn("mqtt: the broker refuses more topics ({}); they are told at debug", reason.text());
        } else {
            LOG.debug("mqtt: the broker refuses {} ({})", topic, reason.text());
        }
        trouble = Optional.of(BrokerTroubles.refused(refused.size(), topic, reason.text(), first));
    }

    /** Where an answer goes its asker chooses, so none of these is remembered. */
    void replyRefused(String topic, ReasonCode reason) {
        if (repliesRefused++ == 0) {
            LOG.warn(
                    "mqtt: the broker refuses an answer on {} ({}); more of them are told at debug",
                    topic,
                    reason.text());
        } else {
            LOG.debug("mqtt: the broker refuses an answer on {} ({})", topic, reason.text());
        }
    }

    void accepted(String topic) {
        if (refused.remove(topic) && refused.isEmpty()) {
            LOG.info("mqtt: the broker refuses no topic any more");
            since = null;
            trouble = Optional.empty();
        }
    }

    /** How many topics are refused now. */
    int count() {
        return refused.size();
    }

    @Override
    public void tell(Consumer<Trouble> troubles) {
        trouble.ifPresent(troubles);
    }
}
