package burnerbridge.daemon;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.outside.OutsideProgram;
import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A network that parts between the station that asks and the bridge, and heals. */
class PartedNetworksIT {
    private static final Path SCRIPT =
            Path.of("..", "outside", "two-networks.sh").toAbsolutePath().normalize();
    /** Nothing else is in either network. */
    private static final int PORT = 47900;

    private static final int LEASE_MILLIS = 6_000;

    @TempDir
    @SuppressWarnings("NullAway.Init")
    private Path folder;

    @BeforeAll
    static void requireNamespaces() throws IOException, InterruptedException {
        OutsideProgram.require("ip", "iproute2");
        OutsideProgram.require(
                between("true", "echo joined").contains("joined"),
                "the right to make network namespaces",
                "allow user namespaces on this machine");
    }

    private static String between(String first, String second) throws IOException, InterruptedException {
        return OutsideProgram.output(List.of("env", "APART=", SCRIPT.toString(), first, second));
    }

    private String java(Class<?> program, String more) {
        return Path.of(System.getProperty("java.home"), "bin", "java") + " -cp '"
                + System.getProperty("java.class.path") + "' " + program.getName() + " " + folder + " " + PORT + " "
                + more;
    }

    @Test
    void aDemandThatNobodyCanRenewIsTakenBackInItsTimeAndStandsAgainOnceTheNetworkIsWhole() throws Exception {
        String said = between(
                "exec " + java(PartedPlant.class, "cable") + " > " + folder.resolve("plant.log") + " 2>&1",
                java(PersistentStation.class, ""));
        assertThat(said).contains("[600, 200, 600]");
        long silentAfter = Long.parseLong(said.strip().substring(said.strip().lastIndexOf(' ') + 1));
        // The last ask came up to one patience of the station before the cable was cut.
        assertThat(silentAfter).isGreaterThan(LEASE_MILLIS - 1_000);
    }
}
