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
    private static final int LONGEST = 2000;

    /** A quoted cell, or a certificate, may hold line ends and worse; a problem is one line for a terminal. */
    public Problem {
        message = shortened(message).replaceAll("\\R", " ").replaceAll("\\p{Cc}", "?");
    }

    /** A cell may hold a megabyte, and its end tells no more than its beginning. */
    private static String shortened(String message) {
        int half = LONGEST / 2;
        return message.length() <= LONGEST
                ? message
                : message.substring(0, half) + " … " + message.substring(message.length() - half);
    }

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
