package burnerbridge.daemon;

import burnerbridge.config.SiteFolder;
import burnerbridge.config.problem.Problem;
import burnerbridge.daemon.log.RunLog;
import burnerbridge.site.Site;
import burnerbridge.state.OtherSiteException;
import burnerbridge.state.StateException;
import java.nio.file.Path;
import java.util.Locale;
import java.util.Optional;
import java.util.concurrent.Callable;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.atomic.AtomicBoolean;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.concurrent.locks.LockSupport;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** The daemon itself: runs until it is told to end. */
@Command(
        name = "run",
        mixinStandardHelpOptions = true,
        description = "Runs the bridge for a site folder until it is ended (SIGTERM or Ctrl-C). Logs to standard error."
                + " Writes into the state folder only.",
        footer = {"", Caution.SHORT})
final class RunCommand implements Callable<Integer> {
    private static final Logger LOG = LoggerFactory.getLogger(RunCommand.class);

    /** A switch for measurements: {@code platform} for no virtual threads. */
    private static final String LINE_THREADS = "burnerbridge.line-threads";

    private static final String FORMAT_VARIABLE = "BURNER_BRIDGE_LOG_FORMAT";

    @Parameters(index = "0", paramLabel = "SITE", description = "The site folder, which holds site.yaml.")
    private Path folder = Path.of("");

    @Mixin
    private StateOption state = new StateOption();

    @Option(
            names = "--or-last-accepted",
            description =
                    "Where the site folder has errors or is not there: run the copy of it that was accepted last,"
                            + " with nothing writable, and say so until the bridge is started with a site folder without errors.")
    private boolean orLastAccepted;

    @Option(
            names = "--keep-trying",
            description = "Where another program has the state folder, or this user may not use it: say so, and try"
                    + " again until it can be had, rather than to end with 3.")
    private boolean keepTrying;

    @Option(
            names = "--log-format",
            paramLabel = "FORMAT",
            description = "How a line of the log looks: text, or json, an object a line. Without it:" + " $"
                    + FORMAT_VARIABLE + ", else text.")
    private String logFormat = "";

    @Spec
    @SuppressWarnings("NullAway.Init")
    private CommandSpec spec;

    private final MachineClock clock = new MachineClock();

    @Override
    public Integer call() throws InterruptedException {
        Optional<RunLog.Format> format = format();
        if (format.isEmpty()) {
            return ExitCode.BAD_INPUT;
        }
        SiteFolder loaded = SiteFolder.load(folder);
        for (Problem problem : loaded.problems()) {
            say(problem.word() + ": " + problem);
        }
        RunStart start = new RunStart(folder, state, clock);
        try {
            Optional<RunStart.Chosen> chosen = start.choose(loaded, orLastAccepted);
            if (chosen.isEmpty()) {
                say("The bridge was not started: " + folder + " has errors.");
                return ExitCode.BAD_INPUT;
            }
            return run(start, chosen.get(), format.get());
        } catch (StateException e) {
            say("The bridge was not started: " + e.getMessage() + ".");
            return e instanceof OtherSiteException ? ExitCode.BAD_INPUT : ExitCode.COULD_NOT_REACH;
        }
    }

    private Optional<RunLog.Format> format() {
        String asked = logFormat.isEmpty() ? System.getenv().getOrDefault(FORMAT_VARIABLE, "text") : logFormat;
        for (RunLog.Format format : RunLog.Format.values()) {
            if (format.name().toLowerCase(Locale.ROOT).equals(asked)) {
                return Optional.of(format);
            }
        }
        say("error: " + (logFormat.isEmpty() ? FORMAT_VARIABLE : "--log-format") + ": must be text or json (was "
                + asked + ")");
        return Optional.empty();
    }

    private int run(RunStart start, RunStart.Chosen chosen, RunLog.Format format)
            throws StateException, InterruptedException {
        RunLog log = RunLog.begin(format, clock);
        try (RunStart.Taken taken = take(start, chosen)) {
            runUntilEnded(chosen, taken, log);
            return ExitCode.FINE;
        } finally {
            log.end();
        }
    }

    /** The signal that ends the program ends this wait, too. */
    private RunStart.Taken take(RunStart start, RunStart.Chosen chosen) throws StateException {
        return keepTrying ? start.takeAtLast(chosen, LockSupport::parkNanos) : start.take(chosen);
    }

    private void runUntilEnded(RunStart.Chosen chosen, RunStart.Taken taken, RunLog log) throws InterruptedException {
        Site site = chosen.site();
        Bridge bridge = new Bridge(site, clock, lineThreads(), taken.folder(), taken.circumstances()).logging(log);
        AtomicInteger exitCode = new AtomicInteger(ExitCode.FINE);
        Thread stop = new Thread(
                () -> {
                    LOG.info("ending");
                    bridge.close();
                    LOG.info("ended");
                    log.end();
                    // Told to end and ended: that is fine, not the 143 that a signal gives by itself.
                    Runtime.getRuntime().halt(exitCode.get());
                },
                "stop");
        Runtime.getRuntime().addShutdownHook(stop);
        AtomicBoolean ending = new AtomicBoolean();
        // A part that died would leave the last values standing as good: rather end, and be started again.
        Thread.setDefaultUncaughtExceptionHandler((thread, error) -> endBecauseOf(error, exitCode, ending));
        try {
            bridge.start();
        } catch (RuntimeException e) {
            endBecauseOf(e, exitCode, ending);
        }
        new CountDownLatch(1).await();
    }

    private static LineThreads lineThreads() {
        return "platform".equals(System.getProperty(LINE_THREADS))
                ? LineThreads.ofThePlatform()
                : LineThreads.ofThisJava();
    }

    private static void endBecauseOf(Throwable error, AtomicInteger exitCode, AtomicBoolean ending) {
        LOG.error("the bridge ends because of an error in itself", error);
        exitCode.set(ExitCode.COULD_NOT_REACH);
        if (ending.compareAndSet(false, true)) {
            // Not on the thread that died: the end waits for all threads.
            new Thread(() -> System.exit(ExitCode.COULD_NOT_REACH), "end").start();
        }
    }

    private void say(String text) {
        spec.commandLine().getErr().println(text);
    }
}
