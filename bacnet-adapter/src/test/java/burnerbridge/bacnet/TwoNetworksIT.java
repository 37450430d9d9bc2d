package burnerbridge.bacnet;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.outside.OutsideProgram;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Discovery by an independent client on another machine, as far as two network namespaces are two machines. */
final class TwoNetworksIT {
    private static final Path OUTSIDE = Path.of("../outside").toAbsolutePath().normalize();
    /** Nothing else is in either namespace. */
    private static final int PORT = 47900;

    @BeforeAll
    static void requireNamespaces() throws IOException, InterruptedException {
        OutsideProgram.require("node", "nodejs");
        OutsideProgram.require("ip", "iproute2");
        OutsideProgram.require(
                Files.isDirectory(OUTSIDE.resolve("node_modules/@bacnet-js/client")),
                "the BACnet client",
                "npm ci --prefix outside");
        OutsideProgram.require(
                between("true", "echo joined").contains("joined"),
                "the right to make network namespaces",
                "allow user namespaces on this machine");
    }

    private static String between(String first, String second) throws IOException, InterruptedException {
        return OutsideProgram.output(List.of(OUTSIDE.resolve("two-networks.sh").toString(), first, second));
    }

    private static String device() {
        return "exec " + Path.of(System.getProperty("java.home"), "bin", "java") + " -Xmx64m -cp '"
                + System.getProperty("java.class.path") + "' " + LoneDevice.class.getName() + " 10.77.0.1 " + PORT;
    }

    /** The broadcast of the network, and the limited one. */
    @ParameterizedTest
    @ValueSource(strings = {"10.77.0.255", "255.255.255.255"})
    void aWhoIsToAllFindsTheDevice(String broadcast) throws IOException, InterruptedException {
        String client = "BACNET_BROADCAST=" + broadcast + " node " + OUTSIDE.resolve("bacnet-client.js") + " 10.77.0.1:"
                + PORT + " " + PORT + " who-is";
        // The device needs a moment to start; until then nobody answers.
        String patient = "for i in 1 2 3 4 5 6 7 8; do timeout 4 " + client.replaceFirst("^(\\S+) ", "env $1 ")
                + " && exit 0; done; exit 1";
        assertThat(between(device(), patient)).contains("\"deviceId\":3");
    }
}
