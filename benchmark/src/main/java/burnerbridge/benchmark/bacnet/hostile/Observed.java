package burnerbridge.benchmark.bacnet.hostile;

import burnerbridge.benchmark.bacnet.client.Delays;
import burnerbridge.benchmark.bacnet.device.Device;
import burnerbridge.benchmark.bacnet.device.ResidentMemory;
import burnerbridge.benchmark.measure.MachineClock;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.Locale;

/** A device, looked at from outside over some time. */
record Observed(Device device, PoliteClient client, Path log, MachineClock clock) {
    static final int P99 = 990;
    static final String HEADER = "| | polite reads | lost | median, µs | p99, µs | most, ms | log lines a minute"
            + " | resident, MiB | device's processor time, % of one |";
    static final String RULE = "|---|---|---|---|---|---|---|---|---|";
    private static final int MEDIAN = 500;
    private static final int MOST = 1000;

    /** What was seen. */
    record Phase(Delays delays, int lost, double logLinesPerMinute, double residentMib, double processorShare) {

        String row(String name) {
            return String.format(
                    Locale.ROOT,
                    "| %s | %d | %d | %.0f | %.0f | %.1f | %.1f | %.0f | %.1f |",
                    name,
                    delays.count(),
                    lost,
                    delays.within(MEDIAN) / 1e3,
                    delays.within(P99) / 1e3,
                    delays.within(MOST) / 1e6,
                    logLinesPerMinute,
                    residentMib,
                    100 * processorShare);
        }
    }

    Phase phase(Duration length) {
        long begin = clock.ticks();
        long lines = lines();
        Duration processor = device.processorTime();
        PoliteClient.Seen seen = client.askFor(length);
        double seconds = (clock.ticks() - begin) / 1e9;
        return new Phase(
                seen.delays(),
                seen.lost(),
                (lines() - lines) * 60 / seconds,
                ResidentMemory.mib(device.pid()),
                device.processorTime().minus(processor).toNanos() / 1e9 / seconds);
    }

    private long lines() {
        try (var all = Files.lines(log)) {
            return all.count();
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}
