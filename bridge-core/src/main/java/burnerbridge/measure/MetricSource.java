package burnerbridge.measure;

/** A part that counts or measures. */
@FunctionalInterface
public interface MetricSource {
    /** One that counts nothing. */
    MetricSource NONE = sink -> {};

    /** Gives a sample of each of its metrics. For any thread; does no I/O and does not wait. */
    void measure(MetricSink sink);
}
