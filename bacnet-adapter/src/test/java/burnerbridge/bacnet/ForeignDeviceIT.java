package burnerbridge.bacnet;

import static org.assertj.core.api.Assertions.assertThat;
import static org.awaitility.Awaitility.await;

import burnerbridge.bacnet.edge.ForeignDevice;
import burnerbridge.bacnet.edge.coding.Hex;
import burnerbridge.site.BacnetOptions;
import java.util.Optional;
import org.junit.jupiter.api.Test;

/**
 * Registration with a broadcast management device, played here by octets of ASHRAE 135, J.2, on loopback: one
 * of our own, since the test needs it to refuse and to be silent too.
 */
final class ForeignDeviceIT {
    private static final String I_AM = "10 00 C4 02 00 00 03 22 05 C4 91 00 21 63";

    private static BacnetOptions registeredWith(Station manager) {
        BacnetOptions usual = BacnetOptions.USUAL;
        return new BacnetOptions(
                false,
                usual.objectNames(),
                Optional.of(new BacnetOptions.Registration("127.0.0.1", manager.port(), 60)),
                200,
                500,
                false);
    }

    /** Hears until a datagram of this beginning comes. */
    private static String hear(Station manager, String beginning) {
        for (int i = 0; i < 10; i++) {
            String heard = manager.hear(Station.PATIENCE_MILLIS)
                    .orElseThrow(() -> new AssertionError("nothing came: " + beginning));
            if (heard.startsWith(beginning)) {
                return heard;
            }
        }
        throw new AssertionError("no " + beginning);
    }

    @Test
    void itRegistersAndIsFoundThroughTheManager() {
        try (Station manager = Station.talkingTo(0)) {
            try (Rig rig = new Rig(registeredWith(manager))) {
                Station reply = manager.answering(rig.adapter.port());
                assertThat(hear(manager, "81 05")).isEqualTo("81 05 00 06 00 3C");
                reply.sendRaw(Hex.bytes("81 00 00 06 00 00"));
                await().untilAsserted(
                                () -> assertThat(rig.adapter.foreignDevice()).hasValue(ForeignDevice.State.REGISTERED));
                // It tells everybody where it is as soon as the manager would pass that on, and not before.
                assertThat(hear(manager, "81 09")).isEqualTo("81 09 00 18 01 20 FF FF 00 FF " + I_AM);
                assertThat(hear(manager, "81 09")).isEqualTo("81 09 00 10 01 20 FF FF 00 FF 10 08 09 03 19 03");
                // A Who-Is of 192.0.2.9 that the manager forwards; the I-Am goes to all by way of the manager.
                reply.sendRaw(Hex.bytes("81 04 00 12 C0 00 02 09 BA C0 01 20 FF FF 00 FF 10 08"));
                assertThat(hear(manager, "81 09")).isEqualTo("81 09 00 18 01 20 FF FF 00 FF " + I_AM);
                await().untilAsserted(() -> assertThat(rig.answers()).isTrue());
            }
        }
    }

    @Test
    void aRefusalIsShown() {
        try (Station manager = Station.talkingTo(0)) {
            try (Rig rig = new Rig(registeredWith(manager))) {
                hear(manager, "81 05");
                manager.answering(rig.adapter.port()).sendRaw(Hex.bytes("81 00 00 06 00 30"));
                await().untilAsserted(
                                () -> assertThat(rig.adapter.foreignDevice()).hasValue(ForeignDevice.State.REFUSED));
            }
        }
    }

    @Test
    void silenceIsShown() {
        try (Station manager = Station.talkingTo(0)) {
            try (Rig rig = new Rig(registeredWith(manager))) {
                hear(manager, "81 05");
                await().untilAsserted(
                                () -> assertThat(rig.adapter.foreignDevice()).hasValue(ForeignDevice.State.NO_REPLY));
            }
        }
    }
}
