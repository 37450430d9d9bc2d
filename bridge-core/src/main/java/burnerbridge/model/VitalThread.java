package burnerbridge.model;

import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * For threads without which readings would stand still and go on looking good. When one of them ends by
 * an error this tells it and then asks the process's default handler, by which the root ends the process:
 * a bridge that is gone is seen on both sides, one that has stopped moving is not.
 */
public final class VitalThread implements Thread.UncaughtExceptionHandler {
    private static final Logger LOG = LoggerFactory.getLogger(VitalThread.class);

    @Override
    public void uncaughtException(Thread thread, Throwable error) {
        LOG.error("thread {} ended by an error", thread.getName(), error);
        Thread.UncaughtExceptionHandler root = Thread.getDefaultUncaughtExceptionHandler();
        if (root != null) {
            root.uncaughtException(thread, error);
        }
    }
}
