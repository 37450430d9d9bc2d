package burnerbridge.outside;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.Assertions;
import org.junit.jupiter.api.Assumptions;

/**
 * Programs that others wrote and that a check runs against us. Where one is missing the check is skipped
 * and says how to install it; where the environment variable {@code BURNER_BRIDGE_OUTSIDE} is {@code
 * required} it fails instead.
 */
public final class OutsideProgram {
    /** Debian's own, which sees the libraries of Debian's packages. */
    public static final String PYTHON = "/usr/bin/python3";

    private OutsideProgram() {}

    /** A script or a list of the outside checks. */
    public static Path file(String name) {
        return Path.of(System.getProperty("outside.folder", "../outside")).resolve(name);
    }

    /** Asks for a library of Python. */
    public static void requirePython(String module, String debianPackage) {
        require(
                ends(List.of(PYTHON, "-c", "import " + module)),
                "the Python library " + module,
                "apt-get install " + debianPackage);
    }

    /** Asks for the BACnet client of {@code bacnet-client.js}. */
    public static void requireBacnetClient() {
        require("node", "nodejs");
        require(
                Files.isDirectory(file("node_modules/@bacnet-js/client")),
                "the Node.js library @bacnet-js/client",
                "npm ci --prefix outside");
    }

    /** Whether a program is there and ends well. */
    private static boolean ends(List<String> command) {
        try {
            return new ProcessBuilder(command)
                            .redirectErrorStream(true)
                            .redirectOutput(ProcessBuilder.Redirect.DISCARD)
                            .start()
                            .waitFor()
                    == 0;
        } catch (IOException e) {
            return false;
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            return false;
        }
    }

    /** Asks for a program on the path. */
    public static void require(String program, String debianPackage) {
        boolean found = Arrays.stream(System.getenv("PATH").split(":"))
                .anyMatch(folder -> Files.isExecutable(Path.of(folder, program)));
        require(found, "the program " + program, "apt-get install " + debianPackage);
    }

    /** Asks for anything else that was found or not. */
    public static void require(boolean found, String what, String howToInstall) {
        if (found) {
            return;
        }
        String missing = "outside check not run: " + what + " is missing; " + howToInstall;
        if ("required".equals(System.getenv("BURNER_BRIDGE_OUTSIDE"))) {
            Assertions.fail(missing);
        }
        System.err.println(missing);
        Assumptions.abort(missing);
    }

    /** Leaves a long check out of a second run of all tests, for which another Java makes no difference. */
    public static void onlyOnce() {
        Assumptions.assumeFalse(
                "yes".equals(System.getenv("BURNER_BRIDGE_ONCE_MORE")),
                "was run before, and another Java makes no difference to it");
    }

    /** What a program says on both its outputs until it ends. */
    public static String output(List<String> command) throws IOException, InterruptedException {
        Process process = new ProcessBuilder(command).redirectErrorStream(true).start();
        String said = new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
        process.waitFor();
        return said;
    }
}
