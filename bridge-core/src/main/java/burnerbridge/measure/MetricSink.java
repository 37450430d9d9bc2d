package burnerbridge.measure;

/** Takes samples. */
public interface MetricSink {

    /**
     * Takes one sample.
     *
     * @param labelValues as many as the metric has labels, in their order; no two samples of a metric have the same
     */
    void sample(Metric metric, double value, String... labelValues);
}
