package burnerbridge.daemon;

import burnerbridge.config.SiteFolder;
import burnerbridge.site.Site;
import burnerbridge.state.Occupant;
import burnerbridge.state.StateException;
import burnerbridge.state.StateFolder;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.assertj.core.api.Assertions;

/** A whole bridge in this process, with its site and its state in a folder of the test's. */
final class BridgeHere implements AutoCloseable {
    private final Path site;
    private final Path state;
    private final StopStack started = new StopStack();

    /** @param points the point list that {@code siteYaml} calls {@code points.csv} */
    BridgeHere(Path folder, String siteYaml, String points) throws IOException {
        site = Files.createDirectories(folder.resolve("site"));
        state = folder.resolve("state");
        Files.writeString(site.resolve("points.csv"), points);
        Files.writeString(site.resolve("site.yaml"), siteYaml);
    }

    /** Binds its points first. */
    void start() throws StateException {
        Assertions.assertThat(Main.commandLine().execute("check", site.toString(), "--bind"))
                .isLessThanOrEqualTo(ExitCode.WARNINGS);
        Site loaded = SiteFolder.load(site).site().orElseThrow();
        MachineClock clock = new MachineClock();
        Occupant self = new Occupant(
                "test",
                ProcessHandle.current().pid(),
                clock.now().wall(),
                loaded.name().text(),
                site);
        StateFolder taken = StateFolder.take(state, self);
        started.push(taken);
        Bridge bridge = new Bridge(loaded, clock, LineThreads.ofThisJava(), taken);
        started.push(bridge);
        bridge.start();
    }

    Path site() {
        return site;
    }

    Path state() {
        return state;
    }

    @Override
    public void close() {
        started.close();
    }
}
