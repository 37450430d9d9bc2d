package burnerbridge.benchmark.micro;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Collection;
import org.junit.jupiter.api.Test;
import org.openjdk.jmh.results.RunResult;
import org.openjdk.jmh.runner.Runner;
import org.openjdk.jmh.runner.RunnerException;
import org.openjdk.jmh.runner.options.Options;
import org.openjdk.jmh.runner.options.OptionsBuilder;
import org.openjdk.jmh.runner.options.TimeValue;
import org.openjdk.jmh.runner.options.VerboseMode;

class MicroIT {

    @Test
    void everyBenchmarkRuns() throws RunnerException {
        Options options = new OptionsBuilder()
                .include("burnerbridge\\.benchmark\\.micro\\..*")
                .forks(0)
                .warmupIterations(0)
                .measurementIterations(1)
                .measurementTime(TimeValue.milliseconds(20))
                .shouldFailOnError(true)
                .verbosity(VerboseMode.SILENT)
                .build();
        Collection<RunResult> results = new Runner(options).run();
        assertThat(results).hasSize(4 + 3 * 3);
        assertThat(results)
                .allSatisfy(result ->
                        assertThat(result.getPrimaryResult().getScore()).isPositive());
    }
}
