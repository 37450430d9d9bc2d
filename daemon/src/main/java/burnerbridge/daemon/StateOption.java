package burnerbridge.daemon;

import burnerbridge.site.Site;
import burnerbridge.state.Occupant;
import burnerbridge.state.StateException;
import burnerbridge.state.StateFolder;
import burnerbridge.state.StatePlace;
import java.nio.file.Path;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Option;

/** Where the state folder is, for every command that needs it. */
final class StateOption {
    @Option(
            names = "--state",
            paramLabel = "DIR",
            description = "The state folder. Without it: $STATE_DIRECTORY, else SITE-NAME in"
                    + " $XDG_STATE_HOME/burner-bridge or ~/.local/state/burner-bridge.")
    private @Nullable Path folder;

    /** @throws StateException where there is no place for it */
    Path of(Site site) throws StateException {
        return StatePlace.of(Optional.ofNullable(folder), site.name(), System.getenv());
    }

    /** Takes it for this process. */
    StateFolder take(String command, Site site, Path siteFolder) throws StateException {
        Occupant self = new Occupant(
                command,
                ProcessHandle.current().pid(),
                new MachineClock().now().wall(),
                site.name().text(),
                siteFolder.toAbsolutePath().normalize());
        return StateFolder.take(of(site), self);
    }
}
