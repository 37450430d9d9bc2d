package burnerbridge.bacnet.outside;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.outside.OutsideProgram;
import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;

/** Whether broadcasts arrive, told by a bridge whose network loses them in the ways that networks do. */
final class LostBroadcastsIT {
    private static final Path OUTSIDE = Path.of("../outside").toAbsolutePath().normalize();
    private static final int PORT = 47900;
    private static final String DEVICE = "exec "
            + Path.of(System.getProperty("java.home"), "bin", "java") + " -Xmx64m -cp '"
            + System.getProperty("java.class.path") + "' " + WatchedDevice.class.getName() + " 10.77.0.1 " + PORT;
    /** A Who-Is of every device, and the same to everybody of this network. */
    private static final String WHO_IS = "810a000801001008";

    private static final String WHO_IS_TO_ALL = "810b000801001008";

    @BeforeAll
    static void requireNamespaces() throws IOException, InterruptedException {
        OutsideProgram.onlyOnce();
        OutsideProgram.require("node", "nodejs");
        OutsideProgram.require("ip", "iproute2");
        OutsideProgram.require(
                between("APART=", "true", "echo joined").contains("joined"),
                "the right to make network namespaces",
                "allow user namespaces on this machine");
    }

    private static String between(String how, String first, String second) throws IOException, InterruptedException {
        return OutsideProgram.output(
                List.of("env", how, OUTSIDE.resolve("two-networks.sh").toString(), first, second));
    }

    /** Sends a datagram to an address ten times a second, for so many seconds, from port 47900. */
    private static String sending(String datagram, String to, int seconds) {
        return "node -e \"const s=require('dgram').createSocket('udp4');s.bind(" + PORT
                + ",()=>{s.setBroadcast(true);setInterval(()=>s.send(Buffer.from('" + datagram + "','hex')," + PORT
                + ",'"
                + to + "',()=>{}),100);setTimeout(()=>process.exit(0)," + seconds * 1000 + ")})\"";
    }

    @Test
    void stationsBehindARouterAloneAreToldAsThat() throws IOException, InterruptedException {
        String said = between("APART=yes", DEVICE, sending(WHO_IS, "10.77.0.1", 16));
        assertThat(said)
                .contains("[burner_bridge_bacnet_broadcasts_state[not-known]] []")
                .contains(
                        "[burner_bridge_bacnet_broadcasts_state[only-from-elsewhere]] [notice: bacnet 10.77.0.1:" + PORT
                                + ": stations speak to this port, none of its own network 10.77.0.1/24, and no broadcast arrives:"
                                + " broadcasts stay within a network; look at whether this is a container");
    }

    /** The other's mask is longer, so it sends its broadcasts where nobody is. */
    @Test
    void aNeighbourOfAnotherMaskIsToldAsThat() throws IOException, InterruptedException {
        String narrow = "ip addr flush dev elbac && ip addr add 10.77.0.2/25 brd + dev elbac && ";
        String said = between(
                "APART=",
                DEVICE,
                narrow + "(" + sending(WHO_IS_TO_ALL, "10.77.0.127", 1) + "); " + sending(WHO_IS, "10.77.0.1", 16));
        assertThat(said)
                .contains("[burner_bridge_bacnet_broadcasts_state[only-direct]] [notice: bacnet 10.77.0.1:" + PORT
                        + ": stations of this network 10.77.0.1/24 speak to this port, and no broadcast of anybody arrives"
                        + " at 10.77.0.255; look at the network mask");
    }

    @Test
    void aBroadcastOfAnotherIsHeard() throws IOException, InterruptedException {
        String said = between("APART=", DEVICE, sending(WHO_IS_TO_ALL, "10.77.0.255", 16));
        assertThat(said)
                .contains("[burner_bridge_bacnet_broadcasts_state[heard]] []")
                .doesNotContain("notice", "degraded", "not-ready");
    }

    /** Without the route the system sends what is for everybody out like anything else, and nobody here has it. */
    @Test
    void anOwnBroadcastThatIsLostOnThisMachineIsTold() throws IOException, InterruptedException {
        String said = between(
                "APART=",
                "(sleep 4; ip route del broadcast 10.77.0.255 dev cable table local) & " + DEVICE,
                "sleep 16");
        assertThat(said)
                .contains("[burner_bridge_bacnet_broadcasts_state[own-lost]] [degraded: bacnet 10.77.0.1:" + PORT
                        + ": not even this port's own broadcasts to 10.77.0.255 come back; look at the packet filter");
    }

    @Test
    void anAddressWithoutABroadcastAddressIsRefusedWithWhatToDo() throws IOException, InterruptedException {
        String said = between(
                "APART=", "true", "ip addr add 10.9.9.9/32 dev elbac; " + DEVICE.replace("10.77.0.1", "10.9.9.9"));
        assertThat(said)
                .contains("bacnet: the network interface of 10.9.9.9 has no broadcast address; state one")
                .doesNotContain("taken by another program");
    }

    @Test
    void aLinkThatGoesAndComesBackIsTold() throws IOException, InterruptedException {
        String said = between(
                "APART=", "(sleep 5; ip link set cable down; sleep 5; ip link set cable up) & " + DEVICE, "sleep 15");
        assertThat(said)
                .contains(
                        "[not-ready: bacnet 10.77.0.1:" + PORT + ": the network interface cable is down or has no link;"
                                + " look at the cable and the addresses of this machine (ip -br address)]");
        assertThat(said.strip().lines().reduce((a, b) -> b).orElse("nothing"))
                .endsWith("[burner_bridge_bacnet_broadcasts_state[not-known]] []");
    }
}
