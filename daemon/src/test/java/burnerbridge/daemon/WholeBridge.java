package burnerbridge.daemon;

import burnerbridge.config.SiteFolder;
import burnerbridge.site.Site;
import burnerbridge.state.Occupant;
import burnerbridge.state.StateFolder;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Path;
import picocli.CommandLine;

/** The whole bridge in this process, and the command by which a person approves what it may write. */
final class WholeBridge {
    private WholeBridge() {}

    /** @param started takes what is to be ended */
    static Site start(Path siteFolder, Path stateFolder, StopStack started) throws Exception {
        Site site = SiteFolder.load(siteFolder).site().orElseThrow();
        MachineClock clock = new MachineClock();
        StateFolder state = StateFolder.take(
                stateFolder,
                new Occupant(
                        "test",
                        ProcessHandle.current().pid(),
                        clock.now().wall(),
                        site.name().text(),
                        siteFolder));
        started.push(state);
        Bridge bridge = new Bridge(site, clock, LineThreads.ofThisJava(), state);
        started.push(bridge);
        bridge.start();
        return site;
    }

    /** Whether it is approved now: not while the controllers have not said who they are. */
    static boolean isApproved(Path siteFolder, Path stateFolder) {
        return command("permits", siteFolder.toString(), "--state=" + stateFolder, "--wait=30", "--approve=a person")
                == ExitCode.FINE;
    }

    /** Runs a command as the program does; it silences the log of this process. */
    static int command(String... words) {
        StringWriter said = new StringWriter();
        CommandLine command = Main.commandLine();
        command.setOut(new PrintWriter(said, true));
        command.setErr(new PrintWriter(said, true));
        return command.execute(words);
    }
}
