package burnerbridge.daemon;

import burnerbridge.config.SiteFolder;
import burnerbridge.control.ControlClient;
import burnerbridge.control.ControlException;
import burnerbridge.control.NobodyAnswersException;
import burnerbridge.site.Name;
import burnerbridge.site.Site;
import burnerbridge.state.Occupant;
import burnerbridge.state.StateException;
import burnerbridge.state.StateFolder;
import burnerbridge.state.StatePlace;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.LinkOption;
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

    /** The same of a site folder that may have errors: of its site only the name counts, and maybe not even that is there. */
    Path of(SiteFolder loaded) throws StateException {
        if (loaded.site().isPresent()) {
            return of(loaded.site().get());
        }
        Optional<Name> site = RunStart.nameIn(loaded.folder());
        if (site.isEmpty() && folder == null && System.getenv("STATE_DIRECTORY") == null) {
            throw new StateException("which state folder is meant cannot be told without the name of the site; say it"
                    + " with --state");
        }
        Name name = site.orElseGet(() -> new Name("unnamed"));
        return StatePlace.of(Optional.ofNullable(folder), name, System.getenv());
    }

    /** As the command line has it. */
    Optional<Path> asked() {
        return Optional.ofNullable(folder);
    }

    /**
     * Connects to the bridge that runs with a state folder, or with what stands in for it.
     *
     * @throws ControlException as the client has it
     */
    ControlClient connect(Path stateFolder) throws ControlException {
        try {
            return ControlClient.connect(StateFolder.socketIn(stateFolder));
        } catch (NobodyAnswersException e) {
            Path other = substitute(stateFolder);
            if (isOurs(other)) {
                return ControlClient.connect(StateFolder.socketIn(other));
            }
            throw e;
        }
    }

    /** Everybody may make a folder there, and answer in it for a bridge. */
    private static boolean isOurs(Path folder) {
        try {
            return Files.exists(folder, LinkOption.NOFOLLOW_LINKS) && StateFolder.isOwn(folder);
        } catch (IOException e) {
            return false;
        }
    }

    /** Where what belongs there is while it takes nothing. */
    Path substituteOf(Site site) throws StateException {
        return substitute(of(site));
    }

    private static Path substitute(Path state) {
        return StatePlace.substitute(
                state, Path.of(System.getProperty("java.io.tmpdir")), System.getProperty("user.name", "user"));
    }

    /** Takes it for this process. */
    StateFolder take(String command, Site site, Path siteFolder) throws StateException {
        return StateFolder.take(of(site), self(command, site, siteFolder));
    }

    /** Takes what stands in for it while it takes nothing. */
    StateFolder takeSubstitute(String command, Site site, Path siteFolder) throws StateException {
        return StateFolder.takeSubstitute(substituteOf(site), self(command, site, siteFolder));
    }

    private static Occupant self(String command, Site site, Path siteFolder) {
        return new Occupant(
                command,
                ProcessHandle.current().pid(),
                new MachineClock().now().wall(),
                site.name().text(),
                siteFolder.toAbsolutePath().normalize());
    }
}
