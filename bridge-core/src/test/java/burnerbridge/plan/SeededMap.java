package burnerbridge.plan;

import burnerbridge.site.AddressRange;
import burnerbridge.site.Consistency;
import burnerbridge.site.ControllerDefinition;
import burnerbridge.site.ControllerType;
import burnerbridge.site.Limits;
import burnerbridge.site.LineDefinition;
import burnerbridge.site.LineDefinition.Parity;
import burnerbridge.site.LineDefinition.Rs485;
import burnerbridge.site.LineDefinition.Serial;
import burnerbridge.site.Name;
import burnerbridge.site.ObjectKind;
import burnerbridge.site.PointDefinition;
import burnerbridge.site.PointFormat;
import burnerbridge.site.PointOptions;
import burnerbridge.site.ReadLimits;
import burnerbridge.site.ReadRules;
import burnerbridge.site.RegisterTable;
import burnerbridge.site.Role;
import burnerbridge.site.Scaling;
import burnerbridge.site.SitePoint;
import burnerbridge.site.States;
import burnerbridge.site.UnitId;
import burnerbridge.site.WordOrder;
import burnerbridge.site.unit.Basis;
import burnerbridge.site.unit.Unit;
import java.math.BigDecimal;
import java.time.Duration;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.Random;
import java.util.Set;

/**
 * A small map of one table by a seed: points that overlap, take several registers or belong to groups, rows that
 * are not polled, reserved addresses, limits of ranges, a pause, a turnaround and a serial line.
 */
final class SeededMap {
    private static final int SPAN = 60;
    private static final int[] BAUDS = {1200, 9600, 19_200, 38_400, 115_200};

    final Random random;
    final LineDefinition line;
    final Duration turnaround;
    final List<SitePoint> points = new ArrayList<>();
    final ReadRules rules;
    private final RegisterTable table;
    private final List<PointDefinition> rows = new ArrayList<>();
    private final Set<Integer> reserved = new HashSet<>();
    private final List<Duration> intervals;

    SeededMap(long seed, int mostPoints, List<Duration> intervals) {
        this.random = new Random(seed);
        this.intervals = intervals;
        table = random.nextInt(4) == 0 ? RegisterTable.COIL : RegisterTable.HOLDING_REGISTER;
        line = line();
        turnaround = Duration.ofMillis(random.nextInt(4) == 0 ? 0 : random.nextInt(30));
        for (int i = random.nextInt(6); i > 0; i--) {
            reserved.add(random.nextInt(SPAN));
        }
        addPoints(1 + random.nextInt(mostPoints));
        addRowsThatAreNotPolled();
        rules = rules();
        ControllerDefinition controller = new ControllerDefinition(
                0,
                new Name("boiler-1"),
                line.name(),
                new UnitId(1),
                new ControllerType(new Name("type"), rows, rules),
                0);
        rows.stream()
                .filter(PointDefinition::isPolled)
                .forEach(row -> points.add(new SitePoint(points.size(), controller, row)));
    }

    private LineDefinition line() {
        Serial serial = new Serial(
                "/dev/tty",
                BAUDS[random.nextInt(BAUDS.length)],
                random.nextBoolean() ? Parity.EVEN : Parity.NONE,
                1 + random.nextInt(2),
                Rs485.AUTO,
                false);
        return new LineDefinition(new Name("annex"), serial, Duration.ofSeconds(1), Duration.ofSeconds(3));
    }

    private void addPoints(int count) {
        while (count > 0) {
            int grouped = count > 1 && random.nextInt(5) == 0 ? 2 : 1;
            int first = random.nextInt(SPAN - 8);
            Optional<Name> group = grouped == 2 ? Optional.of(new Name("g" + count)) : Optional.empty();
            PointFormat format = format();
            int second = first + random.nextInt(5);
            if (isFree(first, (grouped == 2 ? Math.max(first, second) : first) + format.width())) {
                rows.add(point(first, format, interval(), group));
                if (grouped == 2) {
                    rows.add(point(second, format, interval(), group));
                    fill(first, second);
                }
                count -= grouped;
            } else {
                count--;
            }
        }
    }

    /** What lies between the points of a group is in rows. */
    private void fill(int from, int to) {
        for (int at = from; at < to; at++) {
            rows.add(point(at, single(), Duration.ZERO, Optional.empty()));
        }
    }

    private boolean isFree(int from, int to) {
        return reserved.stream().noneMatch(address -> address >= from && address < to);
    }

    private Duration interval() {
        return intervals.get(random.nextInt(intervals.size()));
    }

    private PointFormat single() {
        return table.ofBits() ? new PointFormat.Bit() : PointFormat.UINT16;
    }

    private PointFormat format() {
        boolean wide = !table.ofBits() && random.nextInt(3) == 0;
        return wide
                ? new PointFormat.Whole(random.nextBoolean() ? 32 : 64, false, WordOrder.HIGH_WORD_FIRST)
                : single();
    }

    private void addRowsThatAreNotPolled() {
        int share = random.nextInt(3);
        for (int at = 0; at < SPAN; at++) {
            if (!reserved.contains(at) && random.nextInt(10) < 5 * share) {
                rows.add(point(at, single(), Duration.ZERO, Optional.empty()));
            }
        }
    }

    private ReadRules rules() {
        List<ReadLimits.InRange> ranges = new ArrayList<>();
        int from = random.nextInt(SPAN);
        if (random.nextBoolean()) {
            ranges.add(new ReadLimits.InRange(
                    new AddressRange(table, from, from + random.nextInt(20)), 9 + random.nextInt(30)));
        }
        return new ReadRules(
                false,
                new ReadLimits(random.nextBoolean() ? 125 : 9 + random.nextInt(20), ranges),
                Duration.ofMillis(random.nextInt(3) == 0 ? random.nextInt(40) : 0),
                reserved.stream()
                        .sorted()
                        .map(address -> AddressRange.of(table, address, 1))
                        .toList());
    }

    private PointDefinition point(int wire, PointFormat format, Duration every, Optional<Name> group) {
        return new PointDefinition(
                new Name("p-" + rows.size()),
                "",
                table,
                wire,
                Integer.toString(wire),
                format,
                Scaling.NONE,
                Unit.NONE,
                Role.MEASUREMENT,
                every,
                every.multipliedBy(3).plusSeconds(10),
                States.NONE,
                BigDecimal.ZERO,
                ObjectKind.NONE,
                Limits.NONE,
                new Consistency(false, OptionalInt.empty(), group, Optional.empty()),
                Basis.NONE,
                PointOptions.NONE);
    }

    /** Whether a read may take an address: it is in a row, and not reserved. */
    boolean isReadable(int address) {
        return !reserved.contains(address)
                && rows.stream()
                        .anyMatch(row -> row.wireAddress() <= address
                                && address < row.wireAddress() + row.format().width());
    }

    /** The limit of one address. */
    int limitOf(int address) {
        if (table.ofBits()) {
            return 2000;
        }
        return rules.limits().ranges().stream()
                .filter(range -> range.range().first() <= address
                        && address <= range.range().last())
                .mapToInt(ReadLimits.InRange::most)
                .findFirst()
                .orElse(rules.limits().otherwise());
    }

    boolean ofBits() {
        return table.ofBits();
    }
}
