package burnerbridge.benchmark.transactions;

import java.time.Duration;
import java.util.Arrays;
import java.util.List;

/** Notes when it is asked; each of its reads takes as long as the round's number says. */
final class FakeSide implements Side {
    private final String name;
    private final List<String> seen;
    private int rounds;

    FakeSide(String name, List<String> seen) {
        this.name = name;
        this.seen = seen;
    }

    @Override
    public Round read(Asked asked) {
        seen.add(name + " reads");
        rounds++;
        long[] nanos = new long[asked.reads()];
        Arrays.fill(nanos, rounds);
        return new Round(nanos, Duration.ofNanos(rounds), Duration.ofNanos(2L * rounds));
    }

    @Override
    public void disconnect() {
        seen.add(name + " leaves");
    }

    @Override
    public void close() {
        seen.add(name + " closes");
    }
}
