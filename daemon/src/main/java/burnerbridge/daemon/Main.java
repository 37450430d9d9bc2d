package burnerbridge.daemon;

import java.io.FileDescriptor;
import java.io.FileOutputStream;
import java.io.PrintWriter;
import java.nio.charset.StandardCharsets;
import java.util.logging.LogManager;
import picocli.CommandLine;
import picocli.CommandLine.Command;

/** The command line. */
@Command(
        name = "burner-bridge",
        subcommands = {
            RunCommand.class,
            CheckCommand.class,
            ValuesCommand.class,
            ExplainCommand.class,
            FromSpreadsheetCommand.class,
            SchemaCommand.class,
            DocumentsCommand.class,
            PermitsCommand.class
        },
        mixinStandardHelpOptions = true,
        version = "burner-bridge " + Main.VERSION,
        synopsisSubcommandLabel = "COMMAND",
        description = {
            "Reads burner controllers over Modbus and republishes them as BACnet/IP objects and MQTT topics.",
            "",
            Caution.SHORT,
            ""
        },
        footer = {
            "",
            "From a source checkout, 'burner-bridge demo' runs an invented plant to look at.",
            "Exit codes: 0 fine, 1 warnings, 2 bad input, 3 could not reach or start."
        })
public final class Main {
    static final String VERSION = "0.1.0";

    private Main() {}

    /** Runs a command and ends the process with its exit code. */
    public static void main(String[] arguments) {
        // One library logs through java.util.logging, to the console, beside our own log.
        LogManager.getLogManager().reset();
        CommandLine commandLine = commandLine();
        commandLine.setOut(utf8(FileDescriptor.out));
        commandLine.setErr(utf8(FileDescriptor.err));
        System.exit(commandLine.execute(arguments));
    }

    /** Units and texts have letters beyond ASCII, whatever locale a remote shell left in the environment. */
    private static PrintWriter utf8(FileDescriptor descriptor) {
        return new PrintWriter(new FileOutputStream(descriptor), true, StandardCharsets.UTF_8);
    }

    static CommandLine commandLine() {
        CommandLine commandLine = new CommandLine(new Main());
        commandLine.setExecutionExceptionHandler((error, command, arguments) -> {
            command.getErr().println("burner-bridge: an error of its own, which should not happen: " + error);
            return ExitCode.COULD_NOT_REACH;
        });
        return commandLine;
    }
}
