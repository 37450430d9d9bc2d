package burnerbridge.simulator;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.Assertions;
import org.junit.jupiter.api.Assumptions;

/** Programs that others wrote and that a check runs against us. */
public final class OutsideProgram {
    private OutsideProgram() {}

    /** Skips the test where a program is missing, or fails it where outside checks are required. */
    public static void require(String program, String debianPackage) {
        boolean found = Arrays.stream(System.getenv("PATH").split(":"))
                .anyMatch(folder -> Files.isExecutable(Path.of(folder, program)));
        String missing = "outside check not run: '" + program + "' is missing; apt-get install " + debianPackage;
        if (!found && "required".equals(System.getenv("BURNER_BRIDGE_OUTSIDE"))) {
            Assertions.fail(missing);
        }
        Assumptions.assumeTrue(found, missing);
    }

    /** What a program says on both its outputs until it ends. */
    public static String output(List<String> command) throws IOException, InterruptedException {
        Process process = new ProcessBuilder(command).redirectErrorStream(true).start();
        String said = new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
        process.waitFor();
        return said;
    }
}
