package burnerbridge.daemon;

import burnerbridge.bacnet.documents.BacnetDocuments;
import burnerbridge.config.SiteFolder;
import burnerbridge.mqtt.documents.MqttDocuments;
import burnerbridge.site.Site;
import java.io.IOException;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** Writes what others need to know of a site, as files. */
@Command(
        name = "documents",
        mixinStandardHelpOptions = true,
        description = "Writes descriptions of a site's topics and objects for others, made from its configuration."
                + " Connects to nothing.")
final class DocumentsCommand implements Callable<Integer> {
    private static final String WRITE_PERMITS = "write-permits.txt";

    @Parameters(index = "0", paramLabel = "SITE", description = "The site folder, which holds site.yaml.")
    private Path folder = Path.of("");

    @Option(names = "--to", required = true, paramLabel = "FOLDER", description = "Where to; made where it is missing.")
    private Path target = Path.of("");

    @Spec
    @SuppressWarnings("NullAway.Init")
    private CommandSpec spec;

    @Override
    public Integer call() {
        SiteFolder loaded = SiteFolder.load(folder);
        Optional<Site> site = loaded.site();
        if (site.isEmpty()) {
            loaded.problems().forEach(problem -> spec.commandLine().getErr().println(problem.word() + ": " + problem));
            spec.commandLine().getErr().println("Nothing was written: " + folder + " has errors.");
            return ExitCode.BAD_INPUT;
        }
        try {
            write(of(loaded, site.get()));
            return ExitCode.FINE;
        } catch (IOException e) {
            spec.commandLine().getErr().println("error: " + target + " cannot be written (" + e.getMessage() + ")");
            return ExitCode.COULD_NOT_REACH;
        }
    }

    /** Every document by the name of its file. */
    private Map<String, String> of(SiteFolder loaded, Site site) {
        Map<String, String> documents = new LinkedHashMap<>();
        site.bacnet()
                .ifPresent(bacnet -> BacnetDocuments.of(bacnet, site, new MachineClock())
                        .forEach(document -> documents.put(document.name(), document.text())));
        site.mqtt().ifPresent(mqtt -> documents.putAll(MqttDocuments.of(mqtt, site, Main.VERSION)));
        if (!site.permits().isEmpty()) {
            documents.put(WRITE_PERMITS, writePermits(loaded, site));
        }
        return documents;
    }

    /** What may be written, by whom, within what, and what happens in silence, for whoever keeps the papers. */
    private String writePermits(SiteFolder loaded, Site site) {
        StringWriter text = new StringWriter();
        PrintWriter out = new PrintWriter(text);
        out.println("Site " + site.name() + ": write permits");
        new WritableReport(Writable.of(loaded, site), folder).print(out);
        out.flush();
        return text.toString();
    }

    private void write(Map<String, String> documents) throws IOException {
        Files.createDirectories(target);
        for (Map.Entry<String, String> document : documents.entrySet()) {
            Files.writeString(target.resolve(document.getKey()), document.getValue());
            spec.commandLine().getOut().println(target.resolve(document.getKey()));
        }
        spec.commandLine().getOut().flush();
    }
}
