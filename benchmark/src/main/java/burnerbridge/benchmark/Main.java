package burnerbridge.benchmark;

import burnerbridge.benchmark.all.AllCommand;
import burnerbridge.benchmark.bacnet.BacnetCommand;
import burnerbridge.benchmark.bacnet.hostile.HostileCommand;
import burnerbridge.benchmark.lines.LinesCommand;
import burnerbridge.benchmark.loss.LossCommand;
import burnerbridge.benchmark.memory.MemoryCommand;
import burnerbridge.benchmark.micro.JmhCommand;
import burnerbridge.benchmark.mqtt.MqttCommand;
import burnerbridge.benchmark.pace.PaceCommand;
import burnerbridge.benchmark.start.StartCommand;
import burnerbridge.benchmark.transactions.TransactionsCommand;
import picocli.CommandLine;
import picocli.CommandLine.Command;

/** Runs one measurement and prints it, or all of them. */
@Command(
        name = "benchmark/run",
        subcommands = {
            AllCommand.class,
            TransactionsCommand.class,
            LinesCommand.class,
            MqttCommand.class,
            PaceCommand.class,
            LossCommand.class,
            BacnetCommand.class,
            HostileCommand.class,
            StartCommand.class,
            MemoryCommand.class,
            JmhCommand.class
        },
        mixinStandardHelpOptions = true,
        synopsisSubcommandLabel = "COMMAND",
        description = "Measures the bridge on this machine. Results are printed as tables of Markdown.")
public final class Main {
    private Main() {}

    /** All of them, ready to be given arguments. */
    public static CommandLine commands() {
        return new CommandLine(new Main()).setCaseInsensitiveEnumValuesAllowed(true);
    }

    public static void main(String[] arguments) {
        System.exit(commands().execute(arguments));
    }
}
