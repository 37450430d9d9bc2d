package burnerbridge.bacnet;

import burnerbridge.bacnet.device.ChangeApplier;
import burnerbridge.model.VitalThread;

/** Steps a {@link ChangeApplier} on a thread of its own. */
final class ApplyRunner implements AutoCloseable {
    private static final long LONGEST_WAIT_NANOS = 1_000_000_000L;
    private static final long STOP_MILLIS = 1000;

    private final ChangeApplier applier;
    private final Thread thread;
    private volatile boolean closed;

    ApplyRunner(ChangeApplier applier) {
        this.applier = applier;
        this.thread = new Thread(this::run, "bacnet apply");
        thread.setDaemon(true);
        thread.setUncaughtExceptionHandler(new VitalThread());
    }

    void start() {
        thread.start();
    }

    private void run() {
        try {
            while (!closed) {
                applier.step(LONGEST_WAIT_NANOS);
            }
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }

    @Override
    public void close() {
        closed = true;
        thread.interrupt();
        try {
            thread.join(STOP_MILLIS);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }
}
