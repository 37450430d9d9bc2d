package burnerbridge.state;

import burnerbridge.site.Name;
import java.nio.file.Path;
import java.util.Map;
import java.util.Optional;

/** Finds the state folder of a site; the daemon and the verbs that look for it find the same one. */
public final class StatePlace {
    private static final String PROGRAM = "burner-bridge";

    private StatePlace() {}

    /**
     * The folder that was asked for; else the first of {@code STATE_DIRECTORY}, as service managers set it;
     * else one of the site's name below {@code XDG_STATE_HOME} or {@code ~/.local/state} (XDG Base Directory
     * Specification 0.8, from memory: a relative path is to be ignored).
     *
     * @param asked by the command line
     * @throws StateException where there is no home folder to put it into
     */
    public static Path of(Optional<Path> asked, Name site, Map<String, String> environment) throws StateException {
        if (asked.isPresent()) {
            return asked.get().toAbsolutePath().normalize();
        }
        String service = environment.getOrDefault("STATE_DIRECTORY", "").split(":", 2)[0];
        if (!service.isBlank()) {
            return Path.of(service).toAbsolutePath().normalize();
        }
        return userState(environment).resolve(PROGRAM).resolve(site.text());
    }

    /**
     * Where what belongs into a state folder goes for as long as that takes nothing: a folder of the user's own below the
     * one for temporary files, the same for every command.
     */
    public static Path substitute(Path stateFolder, Path temporary, String user) {
        String path = stateFolder.toAbsolutePath().normalize().toString();
        return temporary.resolve(
                PROGRAM + "-" + user.replaceAll("[^A-Za-z0-9._-]", "_") + "-" + Integer.toHexString(path.hashCode()));
    }

    private static Path userState(Map<String, String> environment) throws StateException {
        String state = environment.getOrDefault("XDG_STATE_HOME", "");
        if (state.startsWith("/")) {
            return Path.of(state);
        }
        String home = environment.getOrDefault("HOME", "");
        if (!home.startsWith("/")) {
            throw new StateException("there is no place for the state folder, since the user has no home folder:"
                    + " say one with --state or in the environment variable STATE_DIRECTORY");
        }
        return Path.of(home, ".local", "state");
    }
}
