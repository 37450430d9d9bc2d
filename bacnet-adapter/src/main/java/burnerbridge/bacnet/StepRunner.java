package burnerbridge.bacnet;

import burnerbridge.model.VitalThread;

/** Steps what carries changes over, on a thread of its own. */
final class StepRunner implements AutoCloseable {
    private static final long LONGEST_WAIT_NANOS = 1_000_000_000L;
    private static final long STOP_MILLIS = 1000;

    private final Step step;
    private final Thread thread;
    private volatile boolean closed;

    /** Waits up to so many nanoseconds for something to do, and does it. */
    interface Step {
        void step(long nanos) throws InterruptedException;
    }

    /** @param name of the thread */
    StepRunner(String name, Step step) {
        this.step = step;
        this.thread = new Thread(this::run, name);
        thread.setDaemon(true);
        thread.setUncaughtExceptionHandler(new VitalThread());
    }

    void start() {
        thread.start();
    }

    private void run() {
        try {
            while (!closed) {
                step.step(LONGEST_WAIT_NANOS);
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
