package burnerbridge.daemon;

import burnerbridge.config.SiteFolder;
import burnerbridge.config.binding.BindingChoices;
import burnerbridge.config.problem.Problem;
import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
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

    @Option(
            names = "--bind",
            description = "Give every point without one a BACnet instance, in bindings.csv, and mark what is gone."
                    + " No point that has one is moved.")
    private boolean bind;

    @Option(
            names = "--renamed",
            paramLabel = "OLD=NEW",
            description = "With --bind: a point, as type.old=new, or a type, as old=new, has another name and keeps"
                    + " its instances. May be given several times, for names that were exchanged too.")
    private Map<String, String> renamed = new LinkedHashMap<>();

    @Option(
            names = "--not-renamed",
            paramLabel = "NAME",
            description = "With --bind: a point, as type.point, or a type is what its name says, though it looks like"
                    + " one that is gone. May be given several times.")
    private Set<String> notRenamed = new LinkedHashSet<>();

    @Option(
            names = "--json",
            description = "Tell all of it as one JSON object, for programs; docs/check-json.md has its members.")
    private boolean json;

    @Spec
    @SuppressWarnings("NullAway.Init")
    private CommandSpec spec;

    @Override
    public Integer call() {
        PrintWriter out = spec.commandLine().getOut();
        SiteFolder loaded = SiteFolder.load(folder);
        if (!bind && !(renamed.isEmpty() && notRenamed.isEmpty())) {
            spec.commandLine().getErr().println("error: --renamed and --not-renamed belong to --bind");
            return ExitCode.BAD_INPUT;
        }
        List<String> done = List.of();
        if (bind && !loaded.hasErrors()) {
            try {
                SiteFolder.Bound bound = loaded.bind(new BindingChoices(renamed, notRenamed));
                tell(bound);
                done = bound.done();
                if (!bound.refused().isEmpty()) {
                    return ExitCode.BAD_INPUT;
                }
                loaded = bound.site();
            } catch (IOException e) {
                spec.commandLine()
                        .getErr()
                        .println("error: " + folder.resolve("bindings.csv")
                                + " cannot be written; is the folder writable? (" + e.getMessage() + ")");
                return ExitCode.COULD_NOT_REACH;
            }
        }
        loaded = NamedFilesCheck.looked(loaded, new MachineClock().now());
        if (json) {
            new CheckJson(loaded, done).print(out);
        } else {
            loaded.problems().forEach(problem -> out.println(problem.word() + ": " + problem));
            new CheckReport(loaded).print(out);
            out.println(verdict(loaded));
        }
        return exitCode(loaded);
    }

    private static int exitCode(SiteFolder loaded) {
        if (loaded.hasErrors()) {
            return ExitCode.BAD_INPUT;
        }
        return loaded.problems().stream().anyMatch(Problem::isWarning) ? ExitCode.WARNINGS : ExitCode.FINE;
    }

    private void tell(SiteFolder.Bound bound) {
        if (!bound.refused().isEmpty()) {
            bound.refused().forEach(why -> spec.commandLine().getErr().println("error: " + why));
            spec.commandLine().getErr().println("Nothing was written.");
            return;
        }
        if (json) {
            return;
        }
        PrintWriter out = spec.commandLine().getOut();
        bound.done().forEach(done -> out.println("bindings.csv: " + done));
        out.println(counted(bound.done().size(), "change") + " in " + folder.resolve("bindings.csv") + ".");
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
