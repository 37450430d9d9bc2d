package burnerbridge.bacnet.outside;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.outside.OutsideProgram;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
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
                between("", "true", "echo joined").contains("joined"),
                "the right to make network namespaces",
                "allow user namespaces on this machine");
    }

    /** @param how a setting of the script; empty for none */
    private static String between(String how, String first, String second) throws IOException, InterruptedException {
        return OutsideProgram.output(List.of(
                "env",
                how.isEmpty() ? "APART=" : how,
                OUTSIDE.resolve("two-networks.sh").toString(),
                first,
                second));
    }

    private static String java(Class<?> program, String arguments) {
        return Path.of(System.getProperty("java.home"), "bin", "java") + " -Xmx64m -cp '"
                + System.getProperty("java.class.path") + "' " + program.getName() + " " + arguments;
    }

    /** Until it is answered: the devices need a moment to start, and to say so. The client asks again itself, for half a minute. */
    private static String patient(String client) {
        return "for i in {1..12}; do " + client + " && sleep 1 && exit 0; done; exit 1";
    }

    private static String client(String broadcast, String device, int ownPort, String verb) {
        return "env BACNET_BROADCAST=" + broadcast + " node " + OUTSIDE.resolve("bacnet-client.js") + " " + device + ":"
                + PORT + " " + ownPort + " " + verb;
    }

    /** The broadcast of the network, and the limited one. */
    @ParameterizedTest
    @ValueSource(strings = {"10.77.0.255", "255.255.255.255"})
    void aWhoIsToAllFindsTheDevice(String broadcast) throws IOException, InterruptedException {
        String device = "exec " + java(LoneDevice.class, "10.77.0.1 " + PORT);
        String client = client(broadcast, "10.77.0.1", PORT, "who-is");
        assertThat(between("", device, patient(client))).contains("\"deviceId\":3");
    }

    /**
     * The broadcast management device is the library's port, which shares nothing with ours; no other is in the
     * registries. It and the client, a foreign device of its own, are on another network than the bridge.
     */
    @Test
    void aForeignDeviceIsFoundThroughABroadcastManagementDevice() throws IOException, InterruptedException {
        String device = "exec " + java(LoneDevice.class, "10.77.0.1 " + PORT + " 10.78.0.2");
        String manager = java(LibraryManager.class, "10.78.0.2 10.78.0.255 " + PORT);
        String client = patient(client("10.78.0.255", "10.78.0.2", PORT + 1, "who-is-through 3"));
        String said = between("APART=yes", device, manager + " & manager=$!; trap 'kill $manager' EXIT; " + client);
        assertThat(said).contains("the bridge is registered").contains("\"deviceId\":3");
    }
}
