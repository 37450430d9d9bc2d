package burnerbridge.benchmark.start;

import burnerbridge.benchmark.measure.Spread;
import java.util.ArrayList;
import java.util.List;

/** All starts of one kind: milliseconds from the process, and mebibytes once it has settled. */
final class Started {
    private final List<Double> byMqtt = new ArrayList<>();
    private final List<Double> byBacnet = new ArrayList<>();
    private final List<Double> idleMillis = new ArrayList<>();
    private double residentMib = Double.NaN;
    private double ownMib = Double.NaN;
    private double idleMib = Double.NaN;

    void first(double mqttMillis, double bacnetMillis) {
        byMqtt.add(mqttMillis);
        byBacnet.add(bacnetMillis);
    }

    void idle(double millis) {
        idleMillis.add(millis);
    }

    /** @param own what of it is in no file */
    void settled(double resident, double own) {
        residentMib = resident;
        ownMib = own;
    }

    void idleSettled(double mib) {
        idleMib = mib;
    }

    Spread byMqtt() {
        return spread(byMqtt);
    }

    Spread byBacnet() {
        return spread(byBacnet);
    }

    /** Until a Java that does nothing has said so. */
    Spread idleMillis() {
        return spread(idleMillis);
    }

    double residentMib() {
        return residentMib;
    }

    double ownMib() {
        return ownMib;
    }

    double idleMib() {
        return idleMib;
    }

    private static Spread spread(List<Double> values) {
        return Spread.of(values.stream().mapToDouble(Double::doubleValue).toArray());
    }
}
