package burnerbridge.benchmark.all;

import burnerbridge.benchmark.measure.Machine;
import burnerbridge.benchmark.measure.MachineClock;
import burnerbridge.benchmark.program.JavaOption;
import burnerbridge.benchmark.program.JavaProgram;
import burnerbridge.benchmark.program.TemporaryFolder;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.Callable;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Spec;

/** Runs each measurement once, in turn, and makes one table of their figures. */
@Command(
        name = "all",
        mixinStandardHelpOptions = true,
        description = {
            "Runs each measurement once, in turn, each in a process of its own, and writes one table of what they found.",
            "Exit codes: 0 all were run, 2 wrong arguments, 3 at least one failed; the others are in the table then."
        })
public final class AllCommand implements Callable<Integer> {
    private static final int FAILED = 3;

    @Option(names = "--short", description = "Each as short as it still means something.")
    private boolean isShort;

    @Option(names = "--moment", description = "Each for a moment, to see that all of them work here.")
    private boolean isMoment;

    @Option(
            names = "--only",
            split = ",",
            paramLabel = "RUN",
            description =
                    "These of them: transactions, lines, lines-100, pace, loss, mqtt, bacnet, hostile, start, jmh.")
    private List<String> only = new ArrayList<>();

    @Option(names = "--to", paramLabel = "FILE", description = "Writes the table to it too.")
    private @Nullable Path to;

    @Option(
            names = "--into",
            paramLabel = "FILE",
            description = "Puts the table into it too, between the two lines that begin with <!-- benchmark/run all.")
    private @Nullable Path into;

    @Option(
            names = "--starter",
            hidden = true,
            defaultValue = "${sys:burnerbridge.benchmark.starter:-benchmark/run}",
            description = "What starts a measurement; benchmark/run says so itself.")
    private String starter = "";

    @Mixin
    private final JavaOption javas = new JavaOption();

    @Spec
    @SuppressWarnings("NullAway.Init")
    private CommandSpec spec;

    private final MachineClock clock = new MachineClock();

    @Override
    public Integer call() throws IOException {
        List<Measurement> chosen = chosen();
        Path marked = into;
        if (marked != null) {
            place(marked);
        }
        Instant at = clock.now().wall();
        List<Outcome> outcomes = run(chosen);
        List<String> lines = new Result(call(chosen), length(), at, Machine.whole(), java(), outcomes).lines();
        lines.forEach(this::say);
        Path file = to;
        if (file != null) {
            Files.write(file, lines);
        }
        if (marked != null) {
            place(marked).replace(lines);
        }
        return outcomes.stream().allMatch(Outcome::isWell) ? 0 : FAILED;
    }

    private Length length() {
        return isMoment ? Length.MOMENT : isShort ? Length.SHORT : Length.LONG;
    }

    private List<Measurement> chosen() {
        List<String> names = Plan.ALL.stream().map(Measurement::name).toList();
        for (String name : only) {
            if (!names.contains(name)) {
                throw wrong("--only: must be one of " + String.join(", ", names) + " (was " + name + ")");
            }
        }
        return Plan.ALL.stream()
                .filter(each -> only.isEmpty() || only.contains(each.name()))
                .toList();
    }

    /** Looked at before anything is measured too. */
    private MarkedPlace place(Path marked) throws IOException {
        try {
            return new MarkedPlace(marked);
        } catch (IllegalArgumentException e) {
            throw wrong("--into: " + e.getMessage());
        }
    }

    private ParameterException wrong(String message) {
        return new ParameterException(spec.commandLine(), message);
    }

    private List<Outcome> run(List<Measurement> chosen) {
        List<Outcome> outcomes = new ArrayList<>();
        try (TemporaryFolder folder = TemporaryFolder.create()) {
            Turn turn = new Turn(starter, folder.path(), clock, this::say);
            for (Measurement each : chosen) {
                say("");
                say("## " + each.name());
                say("");
                Outcome outcome = turn.run(each, each.arguments(length(), javas.given()));
                outcomes.add(outcome);
                if (!outcome.isWell()) {
                    say(each.name() + ": " + outcome.trouble() + "; the others go on");
                }
            }
        }
        say("");
        return outcomes;
    }

    /** As it can be called again, without what is of this machine alone. */
    private String call(List<Measurement> chosen) {
        String names = chosen.stream().map(Measurement::name).collect(Collectors.joining(","));
        return "benchmark/run all"
                + switch (length()) {
                    case LONG -> "";
                    case SHORT -> " --short";
                    case MOMENT -> " --moment";
                }
                + (only.isEmpty() ? "" : " --only " + names);
    }

    private String java() {
        return Machine.java()
                + (javas.given().isEmpty()
                        ? ""
                        : ", the daemon on Java "
                                + javas.programs().stream()
                                        .map(JavaProgram::version)
                                        .collect(Collectors.joining(" and ")));
    }

    private void say(String line) {
        spec.commandLine().getOut().println(line);
        spec.commandLine().getOut().flush();
    }
}
