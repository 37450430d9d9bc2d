package burnerbridge.mqtt.broker;

import java.util.concurrent.ScheduledExecutorService;
import java.util.concurrent.ScheduledThreadPoolExecutor;
import java.util.concurrent.TimeUnit;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * Threads of one connection, which end when they have nothing more to do. Left to itself the library
 * makes its own and ends its sending one by a notification alone, which is lost when it comes just
 * before the wait, and the thread stays for ever; from an executor it is interrupted.
 */
final class PahoThreads {
    private static final Logger LOG = LoggerFactory.getLogger(PahoThreads.class);
    /** Connecting or disconnecting, receiving, sending, calling back, and the ping. */
    private static final int MOST_THREADS = 8;

    private static final long IDLE_MILLIS = 200;

    private PahoThreads() {}

    static ScheduledExecutorService ofOneConnection() {
        ScheduledThreadPoolExecutor threads = new ScheduledThreadPoolExecutor(MOST_THREADS, work -> {
            Thread thread = new Thread(work, "MQTT idle");
            thread.setDaemon(true);
            thread.setUncaughtExceptionHandler((t, e) -> LOG.error("mqtt: thread {} ended", t.getName(), e));
            return thread;
        });
        threads.setKeepAliveTime(IDLE_MILLIS, TimeUnit.MILLISECONDS);
        threads.allowCoreThreadTimeOut(true);
        threads.setRemoveOnCancelPolicy(true);
        return threads;
    }
}
