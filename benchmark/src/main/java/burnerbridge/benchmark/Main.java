package burnerbridge.benchmark;

import burnerbridge.benchmark.bacnet.BacnetCommand;
import burnerbridge.benchmark.bacnet.hostile.HostileCommand;
import burnerbridge.benchmark.lines.LinesCommand;
import burnerbridge.benchmark.loss.LossCommand;
import burnerbridge.benchmark.mqtt.MqttCommand;
import burnerbridge.benchmark.pace.PaceCommand;
import burnerbridge.benchmark.transactions.TransactionsCommand;
import picocli.CommandLine;
import picocli.CommandLine.Command;

/** Runs one measurement and prints it. */
@Command(
        name = "benchmark/run",
        subcommands = {
            TransactionsCommand.class,
            LinesCommand.class,
            MqttCommand.class,
            PaceCommand.class,
            LossCommand.class,
            BacnetCommand.class,
            HostileCommand.class
        },
        mixinStandardHelpOptions = true,
        synopsisSubcommandLabel = "COMMAND",
        description = "Measures the bridge on this machine. Results are printed as tables of Markdown.")
public final class Main {
    private Main() {}

    public static void main(String[] arguments) {
        System.exit(new CommandLine(new Main()).execute(arguments));
    }
}
