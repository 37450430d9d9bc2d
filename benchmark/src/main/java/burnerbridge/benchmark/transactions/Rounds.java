package burnerbridge.benchmark.transactions;

import burnerbridge.benchmark.measure.Spread;
import java.time.Duration;
import java.util.Arrays;
import java.util.List;
import java.util.function.Function;

/** All rounds of one side. */
record Rounds(List<Round> rounds) {

    Rounds {
        rounds = List.copyOf(rounds);
    }

    /** Of every read, in microseconds. */
    Spread micros() {
        return Spread.of(rounds.stream()
                        .flatMapToLong(round -> Arrays.stream(round.nanos()))
                        .toArray())
                .times(1e-3);
    }

    /** The processor time of a read on the reading thread, in microseconds. */
    double threadMicros() {
        return microsEach(Round::threadTime);
    }

    /** The same of its process. */
    double processMicros() {
        return microsEach(Round::processTime);
    }

    private double microsEach(Function<Round, Duration> time) {
        long nanos = rounds.stream().map(time).mapToLong(Duration::toNanos).sum();
        long reads = rounds.stream().mapToLong(round -> round.nanos().length).sum();
        return nanos * 1e-3 / reads;
    }

    /** The ratio of the medians of each round to those of the other side's round that followed it. */
    Spread medianRatios(Rounds other) {
        double[] ratios = new double[rounds.size()];
        for (int i = 0; i < ratios.length; i++) {
            ratios[i] = rounds.get(i).median() / other.rounds.get(i).median();
        }
        return Spread.of(ratios);
    }
}
