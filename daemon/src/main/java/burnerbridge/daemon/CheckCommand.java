package burnerbridge.daemon;

import burnerbridge.config.Problem;
import burnerbridge.config.SiteFolder;
import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** Tells everything that is wrong with a site folder, and what would run. */
@Command(
        name = "check",
        mixinStandardHelpOptions = true,
        description = "Tells every problem of a site folder with its file and line, then what would appear where."
                + " Connects to nothing.")
final class CheckCommand implements Callable<Integer> {

    @Parameters(index = "0", paramLabel = "SITE", description = "The site folder, which holds site.yaml.")
    private Path folder = Path.of("");

    @Option(names = "--bind", description = "Give every point without one a BACnet instance, in bindings.csv.")
    private boolean bind;

    @Spec
    @SuppressWarnings("NullAway.Init")
    private CommandSpec spec;

    @Override
    public Integer call() {
        PrintWriter out = spec.commandLine().getOut();
        SiteFolder loaded = SiteFolder.load(folder);
        if (bind && !loaded.hasErrors()) {
            try {
                int added = loaded.proposed().size();
                loaded = loaded.bind();
                out.println(counted(added, "binding") + " added to " + folder.resolve("bindings.csv") + ".");
            } catch (IOException e) {
                spec.commandLine()
                        .getErr()
                        .println("error: " + folder.resolve("bindings.csv")
                                + " cannot be written; is the folder writable? (" + e.getMessage() + ")");
                return ExitCode.COULD_NOT_REACH;
            }
        }
        loaded.problems().forEach(problem -> out.println(problem.word() + ": " + problem));
        loaded.site().ifPresent(site -> new CheckReport(site).print(out));
        out.println(verdict(loaded));
        return loaded.hasErrors()
                ? ExitCode.BAD_INPUT
                : loaded.problems().stream().anyMatch(Problem::isWarning) ? ExitCode.WARNINGS : ExitCode.FINE;
    }

    private static String verdict(SiteFolder loaded) {
        long errors = loaded.problems().stream().filter(Problem::isError).count();
        long warnings = loaded.problems().stream().filter(Problem::isWarning).count();
        return counted(errors, "error") + ", " + counted(warnings, "warning")
                + (errors > 0 ? "; the bridge would not start." : ".");
    }

    private static String counted(long number, String word) {
        return number + " " + word + (number == 1 ? "" : "s");
    }
}
