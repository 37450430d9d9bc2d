package burnerbridge.config.file;

import burnerbridge.config.problem.Problem;
import burnerbridge.config.problem.Problem.Severity;
import java.nio.file.Path;

/**
 * A file outside the site folder that {@code site.yaml} names. Loading a site does not look at it: it need
 * not be on this machine.
 *
 * @param key the setting that names it: {@code mqtt.tls.ca}
 * @param where the file of the site folder that names it
 * @param line of the setting's value there, from 1
 * @param column likewise
 */
public record NamedFile(String key, Path file, String where, int line, int column) {

    /** Something that is wrong with it, told where it is named. */
    public Problem problem(Severity severity, String message) {
        return new Problem(severity, where, line, column, key + ": " + message);
    }
}
