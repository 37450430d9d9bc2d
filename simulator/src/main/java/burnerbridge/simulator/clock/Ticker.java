package burnerbridge.simulator.clock;

/** Monotonic nanoseconds, and a way to wait for them. For any number of threads. */
public interface Ticker {

    /** Nanoseconds from an arbitrary origin. */
    long nanos();

    /**
     * Returns at that moment, or at once where it is over.
     *
     * @throws InterruptedException where the thread is interrupted meanwhile
     */
    void await(long nanos) throws InterruptedException;
}
