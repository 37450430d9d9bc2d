package burnerbridge.plan;

import burnerbridge.site.AddressRange;
import burnerbridge.site.ReadRules;
import burnerbridge.site.RegisterTable;
import java.util.stream.IntStream;

/** What one table of one controller allows its reads, and what they cost. */
final class Ground {
    private final RegisterTable table;
    private final ReadRules rules;
    private final Readable readable;
    private final long[] costs;

    /**
     * Looks at one table.
     *
     * @param table by which it is read
     * @param turnaround of the controller, in nanoseconds
     */
    Ground(RegisterTable table, ReadRules rules, Readable readable, CostModel model, long turnaround) {
        this.table = table;
        this.rules = rules;
        this.readable = readable;
        long pause = rules.pause().toNanos();
        this.costs = IntStream.rangeClosed(0, table.mostInOneRead())
                .mapToLong(count -> model.of(table, count, turnaround) + pause)
                .toArray();
    }

    /**
     * What a read of so many addresses costs, in nanoseconds: its bus time, and the pause after it, in which
     * its controller cannot be asked.
     */
    long cost(int count) {
        return costs[count];
    }

    /** The same a second, for a read that is made at an interval. */
    double rate(int count, long every) {
        return 1e9 * cost(count) / every;
    }

    /** The most addresses that any read may take. */
    int longest() {
        return table.mostInOneRead();
    }

    /** The most addresses that a read may take which takes these. */
    int most(int first, int last) {
        return rules.most(new AddressRange(table, first, last));
    }

    boolean crosses(int from, int to) {
        return readable.crosses(table, from, to);
    }

    /** Whether one read may take all of these. */
    boolean allows(int first, int last) {
        int count = last - first + 1;
        return count <= longest() && count <= most(first, last) && crosses(first, last);
    }
}
