package burnerbridge.benchmark.program;

import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * A program that runs Java.
 *
 * @param version all of it
 * @param feature its first number
 */
public record JavaProgram(String path, String version, int feature) {
    /** The one that runs this. */
    public static final String OWN = System.getProperty("java.home") + "/bin/java";

    private static final Pattern VERSION = Pattern.compile("version \"((\\d+)[^\"]*)\"");

    /** Asks it for its version. */
    public static JavaProgram of(String path) {
        Matcher matcher = VERSION.matcher(Program.output(path, "-version"));
        if (!matcher.find()) {
            throw new IllegalArgumentException(path + " does not tell its version");
        }
        return new JavaProgram(path, matcher.group(1), Integer.parseInt(matcher.group(2)));
    }
}
