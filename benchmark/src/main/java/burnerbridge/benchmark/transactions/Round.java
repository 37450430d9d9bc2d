package burnerbridge.benchmark.transactions;

import burnerbridge.benchmark.measure.Spread;
import java.time.Duration;

/**
 * What one side needed for the reads of one round.
 *
 * @param nanos how long each read took, from handing over the request to having the values
 * @param threadTime the processor time of the thread that read, between reads included
 * @param processTime the processor time of its process, other threads included
 */
@SuppressWarnings("ArrayRecordComponent") // never compared, and there are many
record Round(long[] nanos, Duration threadTime, Duration processTime) {

    double median() {
        return Spread.of(nanos).median();
    }
}
