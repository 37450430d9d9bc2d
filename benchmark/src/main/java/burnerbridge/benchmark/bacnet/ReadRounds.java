package burnerbridge.benchmark.bacnet;

import burnerbridge.benchmark.bacnet.client.Asker;
import burnerbridge.benchmark.bacnet.client.Delays;
import burnerbridge.benchmark.measure.Spread;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;

/** All rounds of reads of one side. */
final class ReadRounds {
    private final List<Double> rates = new ArrayList<>();
    private final Delays delays = new Delays();
    private Duration processorTime = Duration.ZERO;
    private int lost;

    void add(Asker.Round round, Duration processor) {
        rates.add(round.perSecond());
        delays.addAll(round.delays());
        processorTime = processorTime.plus(processor);
        lost += round.lost();
    }

    Delays delays() {
        return delays;
    }

    int lost() {
        return lost;
    }

    Spread rate() {
        return spread(rates);
    }

    /** Of each round to the other side's that followed it. */
    Spread ratio(ReadRounds other) {
        return ratio(rates, other.rates);
    }

    static Spread ratio(List<Double> ours, List<Double> theirs) {
        List<Double> ratios = new ArrayList<>();
        for (int i = 0; i < ours.size(); i++) {
            ratios.add(ours.get(i) / theirs.get(i));
        }
        return spread(ratios);
    }

    static Spread spread(List<Double> values) {
        return Spread.of(values.stream().mapToDouble(Double::doubleValue).toArray());
    }

    double processorMicrosEach() {
        return processorTime.toNanos() / 1e3 / Math.max(1, delays.count());
    }
}
