package burnerbridge.config.problem;

import java.util.Locale;

/**
 * Something wrong in a file of the site folder.
 *
 * @param file relative to the site folder
 * @param line from 1; 0 where the file as a whole is meant
 * @param column from 1; 0 where the line as a whole is meant
 * @param message names the thing, what is allowed and what was found
 */
public record Problem(Severity severity, String file, int line, int column, String message) {

    /** Whether a site can run with it. */
    public enum Severity {
        ERROR,
        WARNING,
        /** Worth knowing, and nothing to mend. */
        NOTE
    }

    /** The word in front of it: {@code error}. */
    public String word() {
        return severity.name().toLowerCase(Locale.ROOT);
    }

    public boolean isWarning() {
        return severity == Severity.WARNING;
    }

    public boolean isError() {
        return severity == Severity.ERROR;
    }

    /** {@code site.yaml:41:14: controllers.boiler-1.unit: must be 1 to 247 (was 0)}. */
    @Override
    public String toString() {
        StringBuilder text = new StringBuilder(file);
        if (line > 0) {
            text.append(':').append(line);
        }
        if (line > 0 && column > 0) {
            text.append(':').append(column);
        }
        return text.append(": ").append(message).toString();
    }
}
