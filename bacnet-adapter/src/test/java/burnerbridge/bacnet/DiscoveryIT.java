package burnerbridge.bacnet;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.bacnet.edge.coding.Hex;
import burnerbridge.model.RunningClock;
import java.net.DatagramSocket;
import java.net.InetAddress;
import java.net.SocketException;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Who-Is and Who-Has by unicast and by broadcast, on the broadcast address of loopback. */
final class DiscoveryIT {
    /** Form of ASHRAE 135, F.4.9: device 3, 1476 octets, segments both ways, vendor 99. */
    private static final String I_AM = "81 0B 00 19 01 20 FF FF 00 FF 10 00 C4 02 00 00 03 22 05 C4 91 00 21 63";

    private static final String I_AM_TO_ONE = "81 0A 00 14 01 00 10 00 C4 02 00 00 03 22 05 C4 91 00 21 63";

    private static final String I_HAVE_PHASE =
            "10 01 C4 02 00 00 03 C4 03 40 00 14 75 0F 00" + " 62 6F 69 6C 65 72 2D 31 2E 70 68 61 73 65";

    private static void assertIAm(Optional<String> datagram) {
        assertThat(datagram.orElse("nothing").substring(12)).isEqualTo(I_AM.substring(12));
    }

    /** The I-Am of the start is sent before the first request is answered. */
    private static void forgetTheStart(Rig rig, Station all) {
        assertThat(rig.answers()).isTrue();
        all.forget();
    }

    private static int freePort() {
        try (DatagramSocket socket = new DatagramSocket(0, InetAddress.getLoopbackAddress())) {
            return socket.getLocalPort();
        } catch (SocketException e) {
            throw new AssertionError(e);
        }
    }

    @Test
    void theDeviceAnnouncesItselfToAllWhenItStarts() throws BacnetStartException {
        int port = freePort();
        Plant plant = new Plant(new RunningClock());
        try (Station all = Station.listeningToBroadcasts(port);
                BacnetAdapter adapter =
                        new BacnetAdapter(Plant.settings(port), plant.site, plant.table, new RunningClock())) {
            adapter.start();
            // The library first asks for routers; then come the I-Am and the question who else has our instance, and no
            // restart notification.
            assertThat(all.hear(Station.PATIENCE_MILLIS)).hasValue("81 0B 00 07 01 80 00");
            assertIAm(all.hear(Station.PATIENCE_MILLIS));
            assertThat(all.hear(Station.PATIENCE_MILLIS)).hasValue("81 0B 00 10 01 20 FF FF 00 FF 10 08 09 03 19 03");
            assertThat(all.hear(200)).isEmpty();
        }
    }

    @ParameterizedTest
    @ValueSource(strings = {"10 08", "10 08 09 03 19 03", "10 08 09 00 1B 3F FF FF"})
    void aWhoIsToAllIsAnsweredToAllAndOneToUsAloneToItsSender(String whoIs) {
        try (Rig rig = new Rig();
                Station toAll = Station.broadcasting(rig.adapter.port());
                Station all = Station.listeningToBroadcasts(rig.adapter.port())) {
            forgetTheStart(rig, all);
            rig.station.send(whoIs);
            assertThat(rig.station.hear(Station.PATIENCE_MILLIS)).hasValue(I_AM_TO_ONE);
            assertThat(all.hear(100)).isEmpty();
            toAll.sendRaw(Station.framed(0x0B, Station.concat(Hex.bytes("01 20 FF FF 00 FF"), Hex.bytes(whoIs))));
            assertThat(all.hear(Station.PATIENCE_MILLIS).orElse("nothing")).endsWith(whoIs); // the question itself
            assertIAm(all.hear(Station.PATIENCE_MILLIS));
        }
    }

    @Test
    void aWhoIsForOthersIsNotAnswered() {
        try (Rig rig = new Rig();
                Station all = Station.listeningToBroadcasts(rig.adapter.port())) {
            forgetTheStart(rig, all);
            rig.station.send("10 08 09 04 19 09");
            rig.station.send("10 08 09 00 19 02");
            assertThat(rig.answers()).isTrue();
            assertThat(all.hear(100)).isEmpty();
        }
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "10 07 2C 03 40 00 14",
                "10 07 3D 0F 00 62 6F 69 6C 65 72 2D 31 2E 70 68 61 73 65",
                "10 07 09 03 19 03 2C 03 40 00 14",
            })
    void aWhoHasOfAnObjectIsAnsweredToAll(String whoHas) {
        try (Rig rig = new Rig();
                Station all = Station.listeningToBroadcasts(rig.adapter.port())) {
            forgetTheStart(rig, all);
            rig.station.send(whoHas);
            assertThat(all.hear(Station.PATIENCE_MILLIS).orElse("nothing")).endsWith(I_HAVE_PHASE);
        }
    }

    @Test
    void noBroadcastIsEverRefused() {
        try (Rig rig = new Rig();
                Station toAll = Station.broadcasting(rig.adapter.port());
                Station all = Station.listeningToBroadcasts(rig.adapter.port())) {
            forgetTheStart(rig, all);
            String[] requests = {
                "81 0B 00 11 01 04 00 04 01 0C 0C 00 00 00 05 19 55", // ReadProperty
                "81 0A 00 11 01 04 00 04 01 0C 0C 00 00 00 05 19 55",
                "81 0B 00 0A 01 04 00 04 01 11",
                "81 05 00 06 00 3C", // Register-Foreign-Device
                "81 02 00 04",
            };
            for (String request : requests) {
                toAll.sendRaw(Hex.bytes(request));
                assertThat(all.hear(Station.PATIENCE_MILLIS)).hasValue(request); // so the device has it too
            }
            assertThat(rig.answers()).isTrue();
            assertThat(all.hear(100)).isEmpty();
            assertThat(toAll.hear(100)).isEmpty();
        }
    }

    @Test
    void aFunctionOfABroadcastManagementDeviceIsRefused() {
        try (Rig rig = new Rig()) {
            rig.station.sendRaw(Hex.bytes("81 05 00 06 00 3C"));
            assertThat(rig.station.hear(Station.PATIENCE_MILLIS)).hasValue("81 00 00 06 00 30");
        }
    }
}
