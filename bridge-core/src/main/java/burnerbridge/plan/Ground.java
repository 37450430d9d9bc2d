package burnerbridge.plan;

import burnerbridge.site.AddressRange;
import burnerbridge.site.ReadRules;
import burnerbridge.site.RegisterTable;

/**
 * What one table of one controller allows its reads, and what they cost.
 *
 * @param table by which it is read
 * @param turnaround of the controller, in nanoseconds
 */
record Ground(RegisterTable table, ReadRules rules, Readable readable, CostModel model, long turnaround) {

    /**
     * What a read of so many addresses costs, in nanoseconds: its bus time, and the pause after it, in which
     * its controller cannot be asked.
     */
    long cost(int count) {
        return model.of(table, count, turnaround) + rules.pause().toNanos();
    }

    /** The same a second, for a read that is made at an interval. */
    double rate(int count, long every) {
        return 1e9 * cost(count) / every;
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
        return count <= table.mostInOneRead() && count <= most(first, last) && crosses(first, last);
    }
}
