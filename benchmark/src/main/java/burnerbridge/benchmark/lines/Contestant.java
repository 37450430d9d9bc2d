package burnerbridge.benchmark.lines;

import burnerbridge.benchmark.program.Program;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * One way to run the daemon.
 *
 * @param java the program
 * @param version its version
 */
record Contestant(String java, String version, Kind kind) {
    private static final Pattern VERSION = Pattern.compile("version \"((\\d+)[^\"]*)\"");
    /** From it on the daemon has TCP lines on virtual threads, unless told otherwise. */
    private static final int FIRST_WITH_VIRTUAL_LINES = 24;

    /** On what threads the daemon runs its TCP lines. */
    enum Kind {
        PLATFORM,
        VIRTUAL;

        String word() {
            return this == PLATFORM ? "platform" : "virtual";
        }
    }

    /** Those that a Java has: lines on threads of the platform, and where it can, on virtual ones. */
    static List<Contestant> of(String java) {
        Matcher matcher = VERSION.matcher(Program.output(java, "-version"));
        if (!matcher.find()) {
            throw new IllegalArgumentException(java + " does not tell its version");
        }
        String version = matcher.group(1);
        Contestant platform = new Contestant(java, version, Kind.PLATFORM);
        return Integer.parseInt(matcher.group(2)) < FIRST_WITH_VIRTUAL_LINES
                ? List.of(platform)
                : List.of(platform, new Contestant(java, version, Kind.VIRTUAL));
    }

    Contestant onPlatformThreads() {
        return new Contestant(java, version, Kind.PLATFORM);
    }

    List<String> options() {
        return kind == Kind.PLATFORM ? List.of("-Dburnerbridge.line-threads=platform") : List.of();
    }

    String text() {
        return version + ", " + kind.word();
    }
}
