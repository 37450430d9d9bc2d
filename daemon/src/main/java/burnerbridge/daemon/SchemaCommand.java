package burnerbridge.daemon;

import burnerbridge.config.SiteSchema;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Spec;

/** Prints the schema of {@code site.yaml}. */
@Command(
        name = "schema",
        mixinStandardHelpOptions = true,
        description = "Prints the JSON Schema of site.yaml, with which an editor completes and checks it.")
final class SchemaCommand implements Runnable {
    @Spec
    @SuppressWarnings("NullAway.Init")
    private CommandSpec spec;

    @Override
    public void run() {
        spec.commandLine().getOut().print(SiteSchema.text());
        spec.commandLine().getOut().flush();
    }
}
