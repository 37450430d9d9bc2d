package burnerbridge.benchmark.bacnet;

import burnerbridge.benchmark.bacnet.client.Delays;
import burnerbridge.benchmark.bacnet.client.Watcher;
import burnerbridge.benchmark.measure.Spread;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;

/** All rounds of changes of one side. */
final class ChangeRounds {
    private final List<Double> rates = new ArrayList<>();
    private final Delays delays = new Delays();
    private Duration processorTime = Duration.ZERO;
    private int told;

    void add(Watcher.Told all, Delays single) {
        rates.add(all.perSecond());
        told += all.told();
        processorTime = processorTime.plus(all.processorTime());
        delays.addAll(single);
    }

    Delays delays() {
        return delays;
    }

    int told() {
        return told;
    }

    int rounds() {
        return rates.size();
    }

    Spread rate() {
        return ReadRounds.spread(rates);
    }

    Spread ratio(ChangeRounds other) {
        return ReadRounds.ratio(rates, other.rates);
    }

    double processorMicrosEach() {
        return processorTime.toNanos() / 1e3 / Math.max(1, told);
    }
}
