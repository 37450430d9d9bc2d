package burnerbridge.plan;

import burnerbridge.site.LineDefinition.Parity;
import burnerbridge.site.LineDefinition.Serial;
import burnerbridge.site.Name;
import burnerbridge.site.PointDefinition;
import burnerbridge.site.SitePoint;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/**
 * Tries every way to put the points of a small map together, and reckons what each costs a second: written
 * without the planner's own cost model, order or limits, to hold them against it.
 */
final class Exhaustive {
    private final SeededMap map;
    private final List<int[]> items = new ArrayList<>();
    private final List<Double> everies = new ArrayList<>();
    private final List<List<Integer>> parts = new ArrayList<>();
    private double best;

    Exhaustive(SeededMap map) {
        this.map = map;
        Map<Name, Integer> groups = new LinkedHashMap<>();
        for (SitePoint point : map.points) {
            PointDefinition row = point.definition();
            int[] item = {row.wireAddress(), row.wireAddress() + row.format().width() - 1};
            double every = row.every().toNanos() / 1e9;
            Integer at = row.consistency().group().map(groups::get).orElse(null);
            if (at != null) {
                items.get(at)[0] = Math.min(items.get(at)[0], item[0]);
                items.get(at)[1] = Math.max(items.get(at)[1], item[1]);
                everies.set(at, Math.min(everies.get(at), every));
            } else {
                row.consistency().group().ifPresent(name -> groups.put(name, items.size()));
                items.add(item);
                everies.add(every);
            }
        }
    }

    /** The least milliseconds a second that any way takes. */
    double best() {
        best = Double.MAX_VALUE;
        place(0);
        return best;
    }

    private void place(int item) {
        if (item == items.size()) {
            double cost = parts.stream().mapToDouble(this::rate).sum();
            best = Math.min(best, cost);
            return;
        }
        for (List<Integer> part : List.copyOf(parts)) {
            part.add(item);
            if (isAllowed(part)) {
                place(item + 1);
            }
            part.remove(part.size() - 1);
        }
        List<Integer> own = new ArrayList<>(List.of(item));
        parts.add(own);
        place(item + 1);
        parts.remove(parts.size() - 1);
    }

    private int first(List<Integer> part) {
        return part.stream().mapToInt(i -> items.get(i)[0]).min().orElseThrow();
    }

    private int last(List<Integer> part) {
        return part.stream().mapToInt(i -> items.get(i)[1]).max().orElseThrow();
    }

    private boolean isAllowed(List<Integer> part) {
        int first = first(part);
        int last = last(part);
        for (int address = first; address <= last; address++) {
            if (!map.isReadable(address) || map.limitOf(address) < last - first + 1) {
                return false;
            }
        }
        return true;
    }

    private double rate(List<Integer> part) {
        double every = part.stream().mapToDouble(everies::get).min().orElseThrow();
        return millis(map, last(part) - first(part) + 1) / every;
    }

    /** One transaction and the pause after it, in milliseconds, by the standard's bits and silences. */
    static double millis(SeededMap map, int count) {
        Serial serial = (Serial) map.line.endpoint();
        int bits = 1 + 8 + (serial.parity() == Parity.NONE ? 0 : 1) + serial.stopBits();
        double character = 1000.0 * bits / serial.baud();
        double silence = serial.baud() <= 19_200 ? 3.5 * character : 1.75;
        double data = map.ofBits() ? Math.ceil(count / 8.0) : 2.0 * count;
        return 8 * character
                + silence
                + map.turnaround.toNanos() / 1e6
                + (5 + data) * character
                + silence
                + map.rules.pause().toNanos() / 1e6;
    }
}
