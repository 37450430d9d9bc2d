package burnerbridge.daemon;

import burnerbridge.bacnet.documents.BacnetDocuments;
import burnerbridge.bacnet.documents.Document;
import burnerbridge.config.Problem;
import burnerbridge.config.SiteFolder;
import burnerbridge.site.Site;
import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** Writes the documents that the building's engineers ask for. */
@Command(
        name = "documents",
        mixinStandardHelpOptions = true,
        description = "Writes the tables of engineering data exchange (EDE) and the BACnet conformance statement of"
                + " what a site serves. Connects to nothing.")
final class DocumentsCommand implements Callable<Integer> {

    @Parameters(index = "0", paramLabel = "SITE", description = "The site folder, which holds site.yaml.")
    private Path folder = Path.of("");

    @Option(
            names = "--to",
            paramLabel = "FOLDER",
            required = true,
            description = "Where to write them; it is made where it is not there. Files of the same names are"
                    + " written over.")
    private Path target = Path.of("");

    @Spec
    @SuppressWarnings("NullAway.Init")
    private CommandSpec spec;

    @Override
    public Integer call() {
        PrintWriter err = spec.commandLine().getErr();
        SiteFolder loaded = SiteFolder.load(folder);
        Optional<Site> site = loaded.site();
        if (site.isEmpty()) {
            loaded.problems().stream()
                    .filter(Problem::isError)
                    .forEach(problem -> err.println(problem.word() + ": " + problem));
            err.println("Nothing was written: " + folder + " has errors.");
            return ExitCode.BAD_INPUT;
        }
        if (site.get().bacnet().isEmpty()) {
            err.println("error: " + folder + " has no bacnet, so there is nothing to document");
            return ExitCode.BAD_INPUT;
        }
        return write(BacnetDocuments.of(site.get().bacnet().get(), site.get(), new MachineClock()));
    }

    private int write(List<Document> documents) {
        try {
            Files.createDirectories(target);
            for (Document document : documents) {
                Path file = target.resolve(document.name());
                Files.writeString(file, document.text());
                spec.commandLine().getOut().println(file);
            }
            return ExitCode.FINE;
        } catch (IOException e) {
            spec.commandLine().getErr().println("error: " + target + " cannot be written (" + e.getMessage() + ")");
            return ExitCode.COULD_NOT_REACH;
        }
    }
}
