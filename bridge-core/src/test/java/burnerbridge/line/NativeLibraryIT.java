package burnerbridge.line;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.outside.OutsideProgram;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Where neither the temporary nor the home folder can be written, as on a read-only root. */
class NativeLibraryIT {
    @TempDir
    @SuppressWarnings("NullAway.Init")
    private Path folder;

    private static String open(PtyPair cable, String libraryPath) throws Exception {
        return OutsideProgram.output(List.of(
                Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                "--enable-native-access=ALL-UNNAMED",
                "-Djava.io.tmpdir=/proc/none",
                "-Duser.home=/proc/none",
                "-DjSerialComm.library.path=" + libraryPath,
                "-cp",
                System.getProperty("java.class.path"),
                "burnerbridge.line.wire.OpensAPort",
                cable.ours.toString()));
    }

    /** Lays the library out as the package does. */
    private Path laidOut() throws Exception {
        for (String architecture : List.of("x86_64", "armv8_64")) {
            String name = "Linux/" + architecture + "/libjSerialComm.so";
            try (InputStream in = getClass().getResourceAsStream("/" + name)) {
                Path file = folder.resolve("native").resolve(name);
                Files.createDirectories(file.getParent());
                Files.write(file, in.readAllBytes());
            }
        }
        return folder.resolve("native");
    }

    @Test
    void aLibraryThatLiesReadyIsUsedAsItLies() throws Exception {
        try (PtyPair cable = new PtyPair(folder)) {
            assertThat(open(cable, laidOut().toString())).endsWith("opened\n");
        }
    }

    @Test
    void withoutOneTheLineSaysSoAndTheRestLives() throws Exception {
        try (PtyPair cable = new PtyPair(folder)) {
            assertThat(open(cable, "")).contains("the native serial library cannot be loaded");
        }
    }
}
