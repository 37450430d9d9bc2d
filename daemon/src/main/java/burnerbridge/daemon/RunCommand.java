package burnerbridge.daemon;

import burnerbridge.config.SiteFolder;
import burnerbridge.config.problem.Problem;
import burnerbridge.site.Site;
import burnerbridge.state.OtherSiteException;
import burnerbridge.state.StateException;
import burnerbridge.state.StateFolder;
import java.nio.file.Path;
import java.util.Optional;
import java.util.concurrent.Callable;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.atomic.AtomicInteger;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
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

    @Parameters(index = "0", paramLabel = "SITE", description = "The site folder, which holds site.yaml.")
    private Path folder = Path.of("");

    @Mixin
    private StateOption state = new StateOption();

    @Spec
    @SuppressWarnings("NullAway.Init")
    private CommandSpec spec;

    @Override
    public Integer call() throws InterruptedException {
        SiteFolder loaded = SiteFolder.load(folder);
        for (Problem problem : loaded.problems()) {
            spec.commandLine().getErr().println(problem.word() + ": " + problem);
        }
        Optional<Site> site = loaded.site();
        if (site.isEmpty()) {
            spec.commandLine().getErr().println("The bridge was not started: " + folder + " has errors.");
            return ExitCode.BAD_INPUT;
        }
        try (StateFolder taken = state.take("run", site.get(), folder)) {
            runUntilEnded(site.get(), taken);
            return ExitCode.FINE;
        } catch (StateException e) {
            spec.commandLine().getErr().println("The bridge was not started: " + e.getMessage() + ".");
            return e instanceof OtherSiteException ? ExitCode.BAD_INPUT : ExitCode.COULD_NOT_REACH;
        }
    }

    private static void runUntilEnded(Site site, StateFolder state) throws InterruptedException {
        Bridge bridge = new Bridge(site, new MachineClock(), lineThreads(), state);
        AtomicInteger exitCode = new AtomicInteger(ExitCode.FINE);
        Thread stop = new Thread(
                () -> {
                    LOG.info("ending");
                    bridge.close();
                    LOG.info("ended");
                    // Told to end and ended: that is fine, not the 143 that a signal gives by itself.
                    Runtime.getRuntime().halt(exitCode.get());
                },
                "stop");
        Runtime.getRuntime().addShutdownHook(stop);
        // A part that died would leave the last values standing as good: rather end, and be started again.
        Thread.setDefaultUncaughtExceptionHandler((thread, error) -> endBecauseOf(error, exitCode));
        try {
            bridge.start();
        } catch (RuntimeException e) {
            endBecauseOf(e, exitCode);
        }
        new CountDownLatch(1).await();
    }

    private static LineThreads lineThreads() {
        return "platform".equals(System.getProperty(LINE_THREADS))
                ? LineThreads.ofThePlatform()
                : LineThreads.ofThisJava();
    }

    private static void endBecauseOf(Throwable error, AtomicInteger exitCode) {
        LOG.error("the bridge ends because of an error in itself", error);
        exitCode.set(ExitCode.COULD_NOT_REACH);
        // Not on the thread that died: the end waits for all threads.
        new Thread(() -> System.exit(ExitCode.COULD_NOT_REACH), "end").start();
    }
}
