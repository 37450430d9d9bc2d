package burnerbridge.state;

import java.nio.file.Path;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.HashMap;
import java.util.Map;

/**
 * Who has a state folder, for the messages of those who cannot have it.
 *
 * @param command the verb that runs: {@code run}, {@code values}
 * @param site the site's name
 * @param folder the site folder
 */
public record Occupant(String command, long pid, Instant since, String site, Path folder) {

    /** As the lock file has it: a key and its value on each line. */
    String text() {
        return "command " + command + "\npid " + pid + "\nsince " + since.truncatedTo(ChronoUnit.SECONDS) + "\nsite "
                + site + "\nfolder " + folder.toString().replaceAll("\\p{Cntrl}", "?") + "\n";
    }

    /** Who the text of a lock file names, for people; it may have been read before it was whole. */
    static String words(String text) {
        Map<String, String> values = new HashMap<>();
        text.lines()
                .map(line -> line.split(" ", 2))
                .filter(pair -> pair.length == 2)
                .forEach(pair -> values.put(pair[0], pair[1]));
        if (!values.keySet().containsAll(java.util.Set.of("command", "pid", "since", "folder"))) {
            return "another burner-bridge";
        }
        return "'burner-bridge " + values.get("command") + "' (process " + values.get("pid") + ", since "
                + values.get("since") + ", site folder " + values.get("folder") + ")";
    }
}
