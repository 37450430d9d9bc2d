package burnerbridge.simulator.device;

import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/** Threads that are named for what they own and do not keep the process. */
final class Threads {
    private static final Logger LOG = LoggerFactory.getLogger(Threads.class);
    private static final long LONGEST_END_MILLIS = 1000;

    private Threads() {}

    static Thread of(String name, Runnable work) {
        Thread thread = new Thread(work, name);
        thread.setDaemon(true);
        thread.setUncaughtExceptionHandler((t, e) -> LOG.error("{} ended", t.getName(), e));
        return thread;
    }

    /** Waits until it has ended, for no longer than a second. */
    static void awaitEnd(Thread thread) {
        try {
            thread.join(LONGEST_END_MILLIS);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }
}
