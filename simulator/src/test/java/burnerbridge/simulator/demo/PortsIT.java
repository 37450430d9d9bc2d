package burnerbridge.simulator.demo;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.net.DatagramSocket;
import java.net.ServerSocket;
import org.junit.jupiter.api.Test;

class PortsIT {

    @Test
    void freePortsAreKept() throws IOException {
        Ports free = Ports.ANY.orFreeOnes();

        assertThat(free.orFreeOnes()).isEqualTo(free);
        assertThat(free.differencesTo(free)).isEmpty();
    }

    @Test
    void takenPortsAreReplacedAndSaid() throws IOException {
        try (ServerSocket boilerHouse = new ServerSocket(0, 1, Ports.HOST);
                ServerSocket annex = new ServerSocket(0, 1, Ports.HOST);
                ServerSocket secondDoor = new ServerSocket(0, 1, Ports.HOST);
                ServerSocket mqtt = new ServerSocket(0, 1, Ports.HOST);
                DatagramSocket bacnet = new DatagramSocket(0, Ports.HOST)) {
            Ports wanted = new Ports(
                    boilerHouse.getLocalPort(),
                    annex.getLocalPort(),
                    secondDoor.getLocalPort(),
                    mqtt.getLocalPort(),
                    bacnet.getLocalPort());

            Ports found = wanted.orFreeOnes();

            assertThat(found.boilerHouse()).isNotEqualTo(wanted.boilerHouse());
            assertThat(found.annex()).isNotEqualTo(wanted.annex());
            assertThat(found.secondDoor()).isNotEqualTo(wanted.secondDoor());
            assertThat(found.mqtt()).isNotEqualTo(wanted.mqtt());
            assertThat(found.bacnet()).isNotEqualTo(wanted.bacnet());
            assertThat(found.differencesTo(wanted)).hasSize(5);
        }
    }
}
