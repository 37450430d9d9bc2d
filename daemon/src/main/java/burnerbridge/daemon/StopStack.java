package burnerbridge.daemon;

import java.util.ArrayDeque;
import java.util.Deque;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/** What was started, ended in reverse order; one part that fails to end keeps no other from ending. */
final class StopStack implements AutoCloseable {
    private static final Logger LOG = LoggerFactory.getLogger(StopStack.class);

    private final Deque<AutoCloseable> started = new ArrayDeque<>();

    synchronized void push(AutoCloseable part) {
        started.push(part);
    }

    @Override
    public synchronized void close() {
        while (!started.isEmpty()) {
            closeOne(started.pop());
        }
    }

    private static void closeOne(AutoCloseable part) {
        try {
            part.close();
        } catch (Exception e) {
            LOG.warn("{} did not end cleanly", part.getClass().getSimpleName(), e);
        }
    }
}
