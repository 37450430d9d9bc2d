package burnerbridge.daemon.plant;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;

/** The program as the build has packaged it; integration tests run after that. */
public final class PackagedProgram {
    public static final Path LIB = Path.of("target", "package", "lib").toAbsolutePath();

    private PackagedProgram() {}

    /** The command line with these words, by the Java that runs the test; more can be added. */
    public static List<String> command(String... words) {
        List<String> command = new ArrayList<>(List.of(
                Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                "-cp",
                LIB + "/*",
                "burnerbridge.daemon.Main"));
        command.addAll(List.of(words));
        return command;
    }
}
