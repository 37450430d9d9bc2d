package burnerbridge.benchmark.bacnet;

import burnerbridge.benchmark.bacnet.device.Side;
import burnerbridge.benchmark.measure.Figure;
import burnerbridge.benchmark.measure.Figures;
import burnerbridge.benchmark.measure.Spread;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.function.ToDoubleFunction;
import org.jspecify.annotations.Nullable;

/** The figures of what was seen, ours beside the library's. */
final class BacnetFigures {
    private static final String LIBRARY = Side.LIBRARY.title();

    private final Figures figures;

    BacnetFigures(Figures figures) {
        this.figures = figures;
    }

    void reads(String title, ReadRounds ours, ReadRounds library) {
        rates(title + ", a second", ours.rate(), library.rate());
    }

    void changes(String title, ChangeRounds ours, ChangeRounds library) {
        rates(title + " notifications, a second", ours.rate(), library.rate());
    }

    private void rates(String what, Spread ours, Spread library) {
        figures.add(Figure.range(what, "", ours).beside(LIBRARY, library.median()));
    }

    void starts(int objects, Map<Side, List<StartSeen>> seen) {
        starts(
                objects + " objects: from process to first reply",
                "ms",
                seen,
                start -> start.whole().toNanos() / 1e6);
        starts(objects + " objects: resident memory then", "MiB", seen, StartSeen::residentMib);
    }

    private void starts(
            String what, String unit, Map<Side, List<StartSeen>> seen, ToDoubleFunction<StartSeen> quantity) {
        figures.add(Figure.range(what, unit, spread(seen.get(Side.OURS), quantity))
                .beside(LIBRARY, spread(seen.get(Side.LIBRARY), quantity).median()));
    }

    private static Spread spread(@Nullable List<StartSeen> starts, ToDoubleFunction<StartSeen> quantity) {
        return Spread.of(
                Objects.requireNonNull(starts).stream().mapToDouble(quantity).toArray());
    }
}
