package burnerbridge.benchmark.lines;

import burnerbridge.benchmark.program.JavaProgram;
import java.util.List;

/** One way to run the daemon. */
record Contestant(JavaProgram java, Kind kind) {
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
    static List<Contestant> of(JavaProgram java) {
        Contestant platform = new Contestant(java, Kind.PLATFORM);
        return java.feature() < FIRST_WITH_VIRTUAL_LINES
                ? List.of(platform)
                : List.of(platform, new Contestant(java, Kind.VIRTUAL));
    }

    Contestant onPlatformThreads() {
        return new Contestant(java, Kind.PLATFORM);
    }

    List<String> options() {
        return kind == Kind.PLATFORM ? List.of("-Dburnerbridge.line-threads=platform") : List.of();
    }

    String text() {
        return java.version() + ", " + kind.word();
    }
}
