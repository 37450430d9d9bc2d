package burnerbridge.daemon;

import burnerbridge.config.LastAccepted;
import burnerbridge.config.SiteFolder;
import burnerbridge.config.file.NamedFile;
import burnerbridge.config.problem.Problem;
import burnerbridge.control.ControlClient;
import burnerbridge.control.ControlException;
import burnerbridge.control.JsonLine;
import burnerbridge.control.NobodyAnswersException;
import burnerbridge.daemon.explain.Bundle;
import burnerbridge.daemon.explain.Explanation;
import burnerbridge.daemon.explain.ExplanationText;
import burnerbridge.daemon.explain.Secrets;
import burnerbridge.health.Place;
import burnerbridge.health.Trouble;
import burnerbridge.health.Trouble.Weight;
import burnerbridge.health.TroubleJson;
import burnerbridge.model.BridgeClock;
import burnerbridge.state.StateException;
import java.io.IOException;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.charset.StandardCharsets;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** Tells what is wrong right now, and where to look. */
@Command(
        name = "explain",
        mixinStandardHelpOptions = true,
        description =
                "Tells what is wrong right now with a site that runs, and whether to look for it at the burner, the"
                        + " cable, the network, the broker, the bridge or the site folder. Asks the running bridge and opens no"
                        + " line.",
        footer = {"", "Exit codes: 0 nothing is wrong, 1 something is, 3 no bridge could be asked.", "", Caution.SHORT})
final class ExplainCommand implements Callable<Integer> {

    @Parameters(index = "0", paramLabel = "SITE", description = "The site folder, which holds site.yaml.")
    private Path folder = Path.of("");

    @Mixin
    private StateOption state = new StateOption();

    @Option(names = "--all", description = "Tell everything, though it may not fit on a screen.")
    private boolean all;

    @Option(names = "--json", description = "Tell it as one JSON object, for programs.")
    private boolean json;

    @Option(
            names = "--bundle",
            paramLabel = "FILE",
            description = "Pack it into a ZIP archive with the newest lines of the log, all values, the read plan, the"
                    + " permits, the site folder and what the box is, for whoever helps from afar. No secret is in it.")
    private @Nullable Path bundle;

    @Spec
    @SuppressWarnings("NullAway.Init")
    private CommandSpec spec;

    private final BridgeClock clock = new MachineClock();

    @Override
    public Integer call() {
        SiteFolder loaded = SiteFolder.load(folder);
        List<String> log = new ArrayList<>();
        Explanation explanation = explain(loaded, log);
        print(explanation);
        if (bundle != null) {
            int code = pack(loaded, explanation, log, bundle);
            if (code != ExitCode.FINE) {
                return code;
            }
        }
        if (!explanation.isReached()) {
            return ExitCode.COULD_NOT_REACH;
        }
        return explanation.wrong() > 0 ? ExitCode.WARNINGS : ExitCode.FINE;
    }

    private void print(Explanation explanation) {
        PrintWriter out = spec.commandLine().getOut();
        if (json) {
            out.println(json(explanation));
        } else {
            new ExplanationText(explanation, all).print(out);
        }
        out.flush();
    }

    private static String json(Explanation explanation) {
        return JsonLine.object(json -> {
            json.writeStringProperty("site", explanation.site());
            json.writeBooleanProperty("reached", explanation.isReached());
            json.writeStringProperty("state", explanation.state());
            json.writeArrayPropertyStart("troubles");
            explanation.troubles().forEach(trouble -> TroubleJson.writeObject(json, trouble));
            json.writeEndArray();
        });
    }

    private Explanation explain(SiteFolder loaded, List<String> log) {
        List<Trouble> troubles = new ArrayList<>();
        String name = loaded.site()
                .map(site -> site.name().text())
                .or(() -> RunStart.nameIn(folder).map(Objects::toString))
                .orElse(folder.toString());
        tellSite(loaded, troubles);
        try {
            Path stateFolder = state.of(loaded);
            tellChanged(loaded, stateFolder, troubles);
            try (ControlClient client = state.connect(stateFolder)) {
                ask(client, troubles, log);
                return new Explanation(
                        name,
                        "from the running bridge, process " + client.greeting().pid(),
                        true,
                        troubles);
            } catch (NobodyAnswersException e) {
                boolean closed = Files.exists(stateFolder) && !Files.isExecutable(stateFolder);
                troubles.add(new Trouble(
                        Place.BRIDGE,
                        "bridge",
                        closed
                                ? "this user may not look into the state folder " + stateFolder
                                        + ", so that nobody knows whether one runs"
                                : "none runs with the state folder " + stateFolder,
                        closed
                                ? "who runs the bridge: only that user and root can ask it"
                                : "whether its service is started and with which state folder, and what its log says at the end",
                        null,
                        Weight.NOT_READY));
            }
        } catch (StateException | ControlException e) {
            troubles.add(new Trouble(
                    Place.BRIDGE,
                    "bridge",
                    "it cannot be asked: " + e.getMessage(),
                    "the state folder, and the user that runs this command",
                    null,
                    Weight.NOT_READY));
        }
        return new Explanation(name, "no bridge could be asked", false, troubles);
    }

    private void tellSite(SiteFolder loaded, List<Trouble> troubles) {
        List<Problem> errors =
                loaded.problems().stream().filter(Problem::isError).toList();
        if (!errors.isEmpty()) {
            troubles.add(new Trouble(
                    Place.SITE,
                    "site folder",
                    folder + " has " + errors.size() + (errors.size() == 1 ? " error" : " errors")
                            + ", so that no bridge can start with it; the first: " + errors.get(0),
                    "'burner-bridge check " + folder + "'",
                    null,
                    Weight.DEGRADED));
        }
    }

    /** What runs is what was read at the start; who changes the folder afterwards may not know it. */
    private static void tellChanged(SiteFolder loaded, Path stateFolder, List<Trouble> troubles) {
        LastAccepted kept = new LastAccepted(stateFolder);
        try {
            if (loaded.site().isPresent() && kept.folder().isPresent() && !kept.isKept(loaded)) {
                troubles.add(new Trouble(
                        Place.SITE,
                        "site folder",
                        "it is not as it was when a bridge last started with it; a change comes into force with the next"
                                + " start",
                        "whether the bridge was meant to be started again",
                        null,
                        Weight.NOTICE));
            }
        } catch (IOException e) {
            // Whoever may not read the copy has other things to look at.
        }
    }

    private static void ask(ControlClient client, List<Trouble> troubles, List<String> log) throws ControlException {
        try {
            client.ask(HealthHandler.NAME, arguments -> {}, line -> {
                if (line.containsKey("place")) {
                    troubles.add(TroubleJson.read(line));
                }
            });
        } catch (IllegalArgumentException e) {
            throw new ControlException("the running bridge answers what this program does not know: " + e.getMessage());
        }
        client.ask(LogHandler.NAME, arguments -> {}, line -> log.add(Objects.toString(line.get("line"), "")));
    }

    private int pack(SiteFolder loaded, Explanation explanation, List<String> log, Path file) {
        List<Path> files = loaded.namedFiles().stream().map(NamedFile::file).toList();
        Bundle packed = new Bundle(new Secrets(files, System.getenv()));
        StringWriter text = new StringWriter();
        new ExplanationText(explanation, true).print(new PrintWriter(text, true));
        packed.add("explain.txt", text.toString());
        packed.add("explain.json", json(explanation) + "\n");
        packed.add("check.txt", output("check", folder.toString()));
        if (explanation.isReached()) {
            packed.add("log.txt", String.join("\n", log) + "\n");
            packed.add("values.csv", outputOfSite("values", "--csv", "--wait", "0"));
            packed.add("plan.csv", outputOfSite("values", "--plan", "--csv", "--wait", "0"));
            packed.add("permits.txt", outputOfSite("permits", "--wait", "0"));
        }
        packed.add("box.txt", new BoxText(state, loaded).text());
        for (String name : loaded.files()) {
            read(folder.resolve(name)).ifPresent(content -> packed.add("site/" + name, content));
        }
        try {
            packed.write(file);
            spec.commandLine()
                    .getErr()
                    .println("packed " + packed.names().size() + " files into " + file
                            + "; look into it before it is sent");
            return ExitCode.FINE;
        } catch (FileAlreadyExistsException e) {
            spec.commandLine().getErr().println("error: --bundle: " + file + " is there already, and is left as it is");
            return ExitCode.BAD_INPUT;
        } catch (IOException e) {
            spec.commandLine().getErr().println("error: --bundle: " + file + " cannot be written: " + e.getMessage());
            return ExitCode.COULD_NOT_REACH;
        }
    }

    private static Optional<String> read(Path file) {
        try {
            return Files.isRegularFile(file)
                    ? Optional.of(new String(Files.readAllBytes(file), StandardCharsets.UTF_8))
                    : Optional.empty();
        } catch (IOException e) {
            return Optional.of("cannot be read: " + e.getMessage());
        }
    }

    private String outputOfSite(String command, String... options) {
        List<String> arguments = new ArrayList<>(List.of(command, folder.toString()));
        arguments.addAll(List.of(options));
        state.asked().ifPresent(place -> arguments.add("--state=" + place));
        return output(arguments.toArray(new String[0]));
    }

    /** What another command says, on both of its ways out. */
    private static String output(String... arguments) {
        StringWriter text = new StringWriter();
        PrintWriter out = new PrintWriter(text, true);
        CommandLine line = Main.commandLine();
        line.setOut(out);
        line.setErr(out);
        line.execute(arguments);
        return text.toString();
    }
}
