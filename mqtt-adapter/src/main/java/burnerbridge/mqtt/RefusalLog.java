package burnerbridge.mqtt;

import burnerbridge.mqtt.broker.ReasonCode;
import java.util.HashSet;
import java.util.Set;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/** Tells which topics a broker refuses: each once, and after a number of them only that there are more. */
final class RefusalLog {
    static final int MOST_TOLD = 20;
    private static final Logger LOG = LoggerFactory.getLogger(RefusalLog.class);

    private final Set<String> refused = new HashSet<>();

    void refused(String topic, ReasonCode reason) {
        if (!refused.add(topic)) {
            LOG.debug("mqtt: {} is still refused ({})", topic, reason.text());
        } else if (refused.size() <= MOST_TOLD) {
            LOG.warn("mqtt: the broker refuses {} ({}); it is tried again when it is next due", topic, reason.text());
        } else if (refused.size() == MOST_TOLD + 1) {
            LOG.warn("mqtt: the broker refuses more topics ({}); they are told at debug", reason.text());
        } else {
            LOG.debug("mqtt: the broker refuses {} ({})", topic, reason.text());
        }
    }

    void accepted(String topic) {
        if (refused.remove(topic) && refused.isEmpty()) {
            LOG.info("mqtt: the broker refuses no topic any more");
        }
    }
}
