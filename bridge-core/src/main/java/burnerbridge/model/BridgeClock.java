package burnerbridge.model;

/** The only source of time. A test steps it; the composition root hands in the real one. */
public interface BridgeClock {

    /** Monotonic nanoseconds from an arbitrary origin. */
    long ticks();

    /** This moment on both clocks. */
    Stamp now();
}
