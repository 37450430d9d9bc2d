package burnerbridge.simulator.demo;

import java.util.ArrayDeque;
import java.util.Deque;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/** What has been started, to be put away in reverse; trouble with one does not keep the others. */
final class StartedParts implements AutoCloseable {
    private static final Logger LOG = LoggerFactory.getLogger(StartedParts.class);

    private final Deque<AutoCloseable> parts = new ArrayDeque<>();

    <T extends AutoCloseable> T add(T part) {
        parts.push(part);
        return part;
    }

    @Override
    public void close() {
        while (!parts.isEmpty()) {
            AutoCloseable part = parts.pop();
            try {
                part.close();
            } catch (Exception e) {
                LOG.warn("{}: not put away: {}", part.getClass().getSimpleName(), e.toString());
            }
        }
    }
}
