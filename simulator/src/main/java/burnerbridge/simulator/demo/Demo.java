package burnerbridge.simulator.demo;

import burnerbridge.simulator.clock.ReadsTheRealClock;
import burnerbridge.simulator.demo.screen.Terminal;
import java.time.Clock;
import java.time.Duration;
import java.util.Objects;
import java.util.Optional;
import java.util.concurrent.Callable;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Spec;

/**
 * The demo program: an invented plant with its Modbus ports and an MQTT broker in this process, the real
 * bridge as a child process, a live view of both, and keys for what goes wrong.
 *
 * <p>The launcher tells by the system properties {@code burnerbridge.java},
 * {@code burnerbridge.daemon.classpath} and {@code burnerbridge.site} how to start the bridge and on
 * which site. Exit codes: 0 ended as asked, 2 wrong arguments, 3 a part cannot be started
 * or has died, or nothing has come over MQTT by the end of N seconds.
 */
@Command(
        name = "burner-bridge demo",
        description =
                "Runs an invented plant, a broker and the bridge on loopback, shows them, and lets things go wrong.",
        exitCodeOnExecutionException = DemoException.NOT_REACHED)
public final class Demo implements Callable<Integer> {
    /** Longer than the bridge may take to end. */
    private static final int SECONDS_TO_PUT_AWAY = 12;

    @Spec
    private @Nullable CommandSpec spec;

    @Option(
            names = "--seconds",
            paramLabel = "N",
            description = "End N seconds after everything has started; without it, on q or Ctrl-C.")
    private @Nullable Integer seconds;

    @Option(names = "--no-colour", description = "Show no colours.")
    private boolean noColour;

    @Option(names = "--help", usageHelp = true, description = "Show this help.")
    @SuppressWarnings("UnusedVariable") // picocli looks at it
    private boolean help;

    /** Runs the demo and ends the process with its exit code. */
    public static void main(String[] args) {
        System.exit(new CommandLine(new Demo()).execute(args));
    }

    @Override
    public Integer call() throws InterruptedException {
        StopSignal stop = new StopSignal();
        Optional<Duration> length = length();
        CountDownLatch putAway = new CountDownLatch(1);
        Runtime.getRuntime().addShutdownHook(new Thread(() -> endOnSignal(stop, putAway), "demo end"));
        int exitCode = run(stop, length);
        putAway.countDown();
        return exitCode;
    }

    @ReadsTheRealClock
    private int run(StopSignal stop, Optional<Duration> length) throws InterruptedException {
        Terminal terminal = Terminal.ofThisProcess(noColour, System.getenv());
        try {
            new DemoRun(Launch.from(System.getProperties()), terminal, Clock.systemUTC(), Ports.USUAL, length)
                    .until(stop);
            return CommandLine.ExitCode.OK;
        } catch (DemoException e) {
            terminal.out().flush();
            System.err.println("demo: " + e.getMessage());
            return e.exitCode();
        }
    }

    /**
     * On Ctrl-C the Java runtime would end with 130 and not wait for anybody: lets the demo put away its
     * parts first, then ends the process as asked. After an end of its own there is nothing left to do.
     */
    private static void endOnSignal(StopSignal stop, CountDownLatch putAway) {
        if (putAway.getCount() == 0) {
            return;
        }
        stop.give();
        try {
            if (putAway.await(SECONDS_TO_PUT_AWAY, TimeUnit.SECONDS)) {
                Runtime.getRuntime().halt(CommandLine.ExitCode.OK);
            }
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }

    private Optional<Duration> length() {
        if (seconds != null && seconds < 1) {
            throw new ParameterException(
                    Objects.requireNonNull(spec).commandLine(), "--seconds: must be 1 or more (was " + seconds + ")");
        }
        return Optional.ofNullable(seconds).map(Duration::ofSeconds);
    }
}
