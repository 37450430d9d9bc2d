package burnerbridge.bacnet.edge.watch;

import static burnerbridge.bacnet.edge.watch.NetworkWatchRig.INSTANCE;
import static burnerbridge.bacnet.edge.watch.NetworkWatchRig.PORT;
import static burnerbridge.bacnet.edge.watch.NetworkWatchRig.behind;
import static burnerbridge.bacnet.edge.watch.NetworkWatchRig.peer;
import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.bacnet.edge.coding.Hex;
import burnerbridge.bacnet.edge.coding.Octets;
import burnerbridge.health.Trouble;
import burnerbridge.model.Stamp;
import java.time.Duration;
import java.util.Optional;
import org.junit.jupiter.api.Test;

final class NamesakesTest {
    private static final String DOUBLES = "burner_bridge_bacnet_instance_doubles[]";

    private final NetworkWatchRig rig = new NetworkWatchRig();

    @Test
    void anotherDeviceIsToldWithItsAddress() {
        rig.watch.heardOwnInstance(peer("10.77.0.9", PORT), INSTANCE);
        assertThat(rig.told())
                .containsExactly(
                        "degraded network bacnet 10.77.0.1:47808: another device has our device instance 3: it is"
                                + " at 10.77.0.9:47808; look at device-instance in site.yaml and the instance of that device: only"
                                + " one may be 3");
        assertThat(rig.figures()).containsEntry(DOUBLES, 1.0);
    }

    @Test
    void oneBehindARouterIsToldWithNetworkAndAddress() {
        rig.watch.heardOwnInstance(behind("10.77.0.254", PORT, 1001, Octets.of(0x19)), INSTANCE);
        assertThat(rig.told())
                .singleElement()
                .asString()
                .contains("it is at address 19 of network 1001, behind the router 10.77.0.254:47808");
    }

    @Test
    void itIsToldSinceItWasFirstHeardAndIsOverThirtyFiveMinutesAfterItWasLastHeard() {
        Stamp first = rig.clock.now();
        rig.watch.heardOwnInstance(peer("10.77.0.9", PORT), INSTANCE);
        rig.pass(Duration.ofMinutes(34));
        rig.watch.heardOwnInstance(peer("10.77.0.9", PORT), INSTANCE);
        rig.pass(Duration.ofMinutes(34));
        assertThat(rig.troubles()).singleElement().extracting(Trouble::since).isEqualTo(first);
        rig.pass(Duration.ofMinutes(1));
        assertThat(rig.troubles()).isEmpty();
        assertThat(rig.figures()).containsEntry(DOUBLES, 0.0);
    }

    @Test
    void ourOwnAnswerIsNoOtherDevicesByWhateverWayItComes() {
        // As a management device passes it on with its origin, and as a router does with ours in its header.
        rig.watch.heardOwnInstance(peer("10.77.0.1", PORT), INSTANCE);
        rig.watch.heardOwnInstance(behind("10.77.0.254", PORT, 7, Hex.octets("0A 4D 00 01 BA C0")), INSTANCE);
        assertThat(rig.troubles()).isEmpty();
    }

    @Test
    void anotherProgramOfThisMachineIsAnotherDevice() {
        rig.watch.heardOwnInstance(peer("10.77.0.1", PORT + 1), INSTANCE);
        rig.watch.heardOwnInstance(behind("10.77.0.254", PORT, 7, Hex.octets("0A 4D 00 01 BA C1")), INSTANCE);
        assertThat(rig.troubles()).hasSize(2);
    }

    @Test
    void onEveryAddressAnyAddressOfThisMachineIsOurOwn() {
        NetworkWatchRig every = new NetworkWatchRig("0.0.0.0", 24, false);
        every.watch.heardOwnInstance(peer("10.77.0.1", PORT), INSTANCE);
        every.watch.heardOwnInstance(peer("127.0.0.1", PORT), INSTANCE);
        assertThat(every.troubles()).isEmpty();
        every.watch.heardOwnInstance(peer("10.77.0.2", PORT), INSTANCE);
        assertThat(every.troubles()).hasSize(1);
    }

    @Test
    void whoeverMakesUpAddressesFillsNothing() {
        for (int i = 0; i < 10_000; i++) {
            rig.watch.heardOwnInstance(peer("10.77.0.9", 1024 + i), INSTANCE);
        }
        assertThat(rig.troubles()).hasSize(Namesakes.MOST);
    }

    @Test
    void itIsAskedAtOnceAndAboutEveryQuarterOfAnHour() {
        assertThat(rig.watch.dueQuestion()).isEmpty();
        assertThat(rig.watch.firstQuestion(INSTANCE)).isEqualTo(Hex.octets("10 08 09 03 19 03")); // F.4.9 in its form
        rig.clock.forward(Duration.ofMinutes(15).plusSeconds(2));
        assertThat(rig.watch.dueQuestion()).isEmpty();
        rig.clock.forward(Duration.ofSeconds(1));
        assertThat(rig.watch.dueQuestion()).isEqualTo(Optional.of(Hex.octets("10 08 09 03 19 03")));
        assertThat(rig.watch.dueQuestion()).isEmpty();
        assertThat(rig.watch.firstQuestion(4194302)).isEqualTo(Hex.octets("10 08 0B 3F FF FE 1B 3F FF FE"));
    }
}
