package burnerbridge.benchmark.micro;

import burnerbridge.benchmark.measure.Figure;
import burnerbridge.benchmark.measure.Figures;
import burnerbridge.benchmark.measure.Spread;
import java.io.IOException;
import java.util.ArrayList;
import java.util.Collection;
import java.util.List;
import java.util.Map;
import java.util.concurrent.Callable;
import java.util.stream.Collectors;
import org.openjdk.jmh.results.Result;
import org.openjdk.jmh.results.RunResult;
import org.openjdk.jmh.runner.Runner;
import org.openjdk.jmh.runner.RunnerException;
import org.openjdk.jmh.runner.options.CommandLineOptionException;
import org.openjdk.jmh.runner.options.CommandLineOptions;
import org.openjdk.jmh.util.Statistics;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Unmatched;

/** Runs JMH with its own options and takes the figures from its results. */
@Command(
        name = "jmh",
        description = "Small pieces of the data path. Every option but --figures is JMH's own: -h lists those.")
public final class JmhCommand implements Callable<Integer> {
    /** What JMH calls the octets allocated by one call. */
    private static final String ALLOCATED = "gc.alloc.rate.norm";

    @Unmatched
    private List<String> ofJmh = new ArrayList<>();

    @Mixin
    private final Figures figures = new Figures();

    @Override
    public Integer call() throws CommandLineOptionException, IOException, RunnerException {
        CommandLineOptions options = new CommandLineOptions(ofJmh.toArray(new String[0]));
        if (options.shouldHelp()) {
            options.showHelp();
            return 0;
        }
        Collection<RunResult> results = new Runner(options).run();
        results.forEach(this::tell);
        return 0;
    }

    private void tell(RunResult result) {
        String title = title(result);
        figures.add(figure(title, result.getPrimaryResult()));
        result.getSecondaryResults().forEach((name, secondary) -> {
            // Older versions of JMH put a dot before it.
            if (name.endsWith(ALLOCATED)) {
                figures.add(figure(title + ": allocated", secondary));
            }
        });
    }

    private static String title(RunResult result) {
        String[] names = result.getParams().getBenchmark().split("\\.", -1);
        String parameters = result.getParams().getParamsKeys().stream()
                .map(key -> Map.entry(key, result.getParams().getParam(key)))
                .map(each -> ", " + each.getValue() + " " + each.getKey())
                .collect(Collectors.joining());
        return names[names.length - 2] + "." + names[names.length - 1] + parameters;
    }

    private static Figure figure(String what, Result<?> result) {
        return Figure.range(what, result.getScoreUnit(), spread(result.getStatistics()));
    }

    private static Spread spread(Statistics statistics) {
        return new Spread(
                statistics.getMin(),
                statistics.getPercentile(25),
                statistics.getPercentile(50),
                statistics.getPercentile(75),
                statistics.getMax());
    }
}
