package burnerbridge.web;

import burnerbridge.health.HealthReport;
import burnerbridge.measure.MetricSource;
import java.util.function.Supplier;

/**
 * What is served, made anew at each request on the web thread; neither may wait.
 *
 * @param health how the bridge is right now
 * @param metrics what all parts count
 */
public record Pages(Supplier<HealthReport> health, MetricSource metrics) {}
