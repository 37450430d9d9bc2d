package burnerbridge.benchmark.lines;

import burnerbridge.benchmark.measure.Aim;
import burnerbridge.benchmark.measure.Figure;
import burnerbridge.benchmark.measure.Spread;
import java.util.List;
import java.util.Map;
import java.util.function.ToDoubleFunction;
import java.util.stream.Stream;

/** What the runs of a load come to. Virtual threads have those of the platform on the same Java beside them. */
final class LinesFigures {
    private static final Aim HALF_A_PROCESSOR = Aim.atMost(50);
    private static final Aim MEMORY = Aim.atMost(512);

    private LinesFigures() {}

    static List<Figure> of(Load load, Map<Contestant, List<Measured>> runs) {
        return runs.keySet().stream()
                .flatMap(contestant -> of(load, runs, contestant))
                .toList();
    }

    private static Stream<Figure> of(Load load, Map<Contestant, List<Measured>> runs, Contestant contestant) {
        Quantities quantities = new Quantities(load, runs, contestant);
        Figure processor = quantities.figure("processor time", "% of one", Measured::processorShare);
        Figure memory = quantities.figure("resident memory", "MiB", Measured::residentMib);
        Figure gap = quantities.figure(
                "longest time between two reads wanted every second",
                "ms",
                run -> run.seen().longestGap() / 1e6);
        return load.isAimedAt()
                ? Stream.of(processor.aiming(HALF_A_PROCESSOR), memory.aiming(MEMORY), gap)
                : Stream.of(processor, memory, gap);
    }

    private record Quantities(Load load, Map<Contestant, List<Measured>> runs, Contestant contestant) {

        Figure figure(String what, String unit, ToDoubleFunction<Measured> quantity) {
            String title = load.lines() + " lines of " + load.points() + " points by " + load.reads()
                    + (load.reads() == 1 ? " read, " : " reads, ") + contestant.text() + ": " + what;
            Figure alone = Figure.range(title, unit, spread(contestant, quantity));
            return isVirtualBesidePlatform()
                    ? alone.beside(
                            "on platform threads",
                            spread(contestant.onPlatformThreads(), quantity).median())
                    : alone;
        }

        private boolean isVirtualBesidePlatform() {
            return contestant.kind() == Contestant.Kind.VIRTUAL && runs.containsKey(contestant.onPlatformThreads());
        }

        private Spread spread(Contestant one, ToDoubleFunction<Measured> quantity) {
            return Spread.of(runs.getOrDefault(one, List.of()).stream()
                    .mapToDouble(quantity)
                    .toArray());
        }
    }
}
