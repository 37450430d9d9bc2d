package burnerbridge.bacnet.edge.watch;

import static burnerbridge.bacnet.edge.watch.NetworkWatchRig.PORT;
import static burnerbridge.bacnet.edge.watch.NetworkWatchRig.station;
import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.health.Trouble;
import burnerbridge.model.Stamp;
import java.time.Duration;
import java.util.List;
import org.junit.jupiter.api.Test;

final class BroadcastsTest {
    private static final String NEIGHBOUR = "10.77.0.9";
    private static final String ELSEWHERE = "10.99.0.9";

    private final NetworkWatchRig rig = new NetworkWatchRig();

    private static String state(NetworkWatchRig rig) {
        List<String> ones = rig.figures().entrySet().stream()
                .filter(each ->
                        each.getKey().startsWith("burner_bridge_bacnet_broadcasts_state") && each.getValue() == 1)
                .map(each -> each.getKey().replaceAll(".*\\[|]", ""))
                .toList();
        assertThat(ones).hasSize(1);
        return ones.get(0);
    }

    @Test
    void whereNobodyIsHeardNothingIsKnown() {
        rig.broadcast();
        rig.pass(Duration.ofHours(1));
        assertThat(rig.troubles()).isEmpty();
        assertThat(state(rig)).isEqualTo("not-known");
    }

    @Test
    void broadcastsOfOthersProveThatTheyArrive() {
        rig.broadcast();
        rig.watch.heard(station(NEIGHBOUR, PORT), true);
        rig.pass(Duration.ofSeconds(10));
        assertThat(state(rig)).isEqualTo("heard");
        assertThat(rig.figures())
                .containsEntry("burner_bridge_bacnet_broadcasts_heard[others]", 1.0)
                .containsEntry("burner_bridge_bacnet_broadcasts_heard[self]", 1.0)
                .containsEntry("burner_bridge_bacnet_broadcast_age_seconds[]", 10.0);
    }

    /** The system hands its broadcast to us whatever the network does. */
    @Test
    void anotherProgramOfThisMachineProvesNothing() {
        rig.broadcast();
        rig.watch.heard(station("10.77.0.1", 50_000), true);
        rig.watch.heard(station("127.0.0.1", 50_000), false);
        rig.pass(Duration.ofMinutes(20));
        assertThat(state(rig)).isEqualTo("not-known");
        assertThat(rig.troubles()).isEmpty();
    }

    @Test
    void stationsOfOtherNetworksAndNoBroadcastLookLikeAContainerOfItsOwn() {
        Stamp start = rig.clock.now();
        rig.broadcast();
        for (int minute = 0; minute < 15; minute++) {
            rig.watch.heard(station(ELSEWHERE, 50_000), false);
            assertThat(rig.troubles()).isEmpty();
            rig.pass(Duration.ofMinutes(1));
        }
        assertThat(state(rig)).isEqualTo("only-from-elsewhere");
        assertThat(rig.told())
                .containsExactly("notice network bacnet 10.77.0.1:47808: stations speak to this port, none of its own"
                        + " network 10.77.0.1/24, and no broadcast arrives: broadcasts stay within a network; look at"
                        + " whether this is a container in a network of its own, which needs host or macvlan networking,"
                        + " or a network without stations, which needs foreign-device in site.yaml");
        assertThat(rig.troubles()).singleElement().extracting(Trouble::since).isEqualTo(start);
    }

    @Test
    void stationsOfTheOwnNetworkAndNoBroadcastLookLikeAWrongMask() {
        rig.broadcast();
        rig.watch.heard(station(ELSEWHERE, PORT), false);
        rig.watch.heard(station(NEIGHBOUR, PORT), false);
        rig.pass(Duration.ofMinutes(15));
        assertThat(state(rig)).isEqualTo("only-direct");
        assertThat(rig.told())
                .containsExactly(
                        "notice network bacnet 10.77.0.1:47808: stations of this network 10.77.0.1/24 speak to"
                                + " this port, and no broadcast of anybody arrives at 10.77.0.255; look at the network mask and"
                                + " broadcast address here and there, at switches and access points that keep broadcasts back, and at"
                                + " whether this is a container in a network of its own, which needs host or macvlan networking");
    }

    @Test
    void aBroadcastAfterAllEndsIt() {
        rig.watch.heard(station(NEIGHBOUR, PORT), false);
        rig.pass(Duration.ofMinutes(20));
        assertThat(rig.troubles()).hasSize(1);
        rig.watch.heard(station(NEIGHBOUR, PORT), true);
        rig.pass(Duration.ofSeconds(1));
        assertThat(rig.troubles()).isEmpty();
    }

    @Test
    void whereTheyHaveArrivedBeforeAQuietDayIsNoTrouble() {
        rig.watch.heard(station(NEIGHBOUR, PORT), true);
        rig.watch.heard(station(NEIGHBOUR, PORT), false);
        rig.pass(Duration.ofHours(24).minusSeconds(1));
        assertThat(rig.troubles()).isEmpty();
        rig.pass(Duration.ofSeconds(1));
        assertThat(state(rig)).isEqualTo("only-direct");
    }

    @Test
    void anOwnBroadcastThatDoesNotComeBackIsToldAfterFiveSecondsAndOverWithTheNextThatDoes() {
        rig.broadcast();
        rig.pass(Duration.ofSeconds(10));
        assertThat(rig.troubles()).isEmpty();
        rig.watch.sentToAll(rig.clock.ticks());
        rig.pass(Duration.ofSeconds(4));
        assertThat(rig.troubles()).isEmpty();
        rig.pass(Duration.ofSeconds(1));
        assertThat(rig.told())
                .containsExactly("degraded network bacnet 10.77.0.1:47808: not even this port's own broadcasts to"
                        + " 10.77.0.255 come back; look at the packet filter of this machine (UDP must be let in), and"
                        + " broadcast and bind in site.yaml");
        rig.watch.sentToAll(rig.clock.ticks());
        rig.pass(Duration.ofSeconds(1));
        assertThat(rig.troubles()).hasSize(1);
        rig.broadcast();
        rig.pass(Duration.ofSeconds(1));
        assertThat(rig.troubles()).isEmpty();
    }

    @Test
    void aForeignDeviceNeedsNone() {
        NetworkWatchRig foreign = new NetworkWatchRig("10.77.0.1", 24, true);
        foreign.watch.heard(station(ELSEWHERE, PORT), false);
        foreign.pass(Duration.ofHours(1));
        assertThat(foreign.troubles()).isEmpty();
        assertThat(state(foreign)).isEqualTo("not-needed");
    }

    @Test
    void onLoopbackNobodyMissesThem() {
        NetworkWatchRig loopback = new NetworkWatchRig("127.0.0.1", 8, false);
        loopback.broadcast();
        loopback.watch.heard(station("127.0.0.2", PORT), false);
        loopback.pass(Duration.ofHours(1));
        assertThat(loopback.troubles()).isEmpty();
    }

    @Test
    void aNetworkWithRoomForNobodyElseIsTold() {
        NetworkWatchRig alone = new NetworkWatchRig("10.77.0.1", 32, false);
        assertThat(alone.told())
                .containsExactly(
                        "notice network bacnet 10.77.0.1:47808: the address 10.77.0.1/32 is in a network that has"
                                + " room for nobody else, so no broadcast can arrive; look at the network mask of this machine");
    }

    @Test
    void anInterfaceThatIsDownOrGoneIsAllThatIsTold() {
        rig.watch.sentToAll(rig.clock.ticks());
        LocalAddress cable = rig.addresses.remove(1);
        rig.addresses.add(new LocalAddress(cable.address(), cable.prefix(), cable.device(), false));
        rig.pass(Duration.ofSeconds(10));
        Stamp since = rig.clock.now();
        assertThat(rig.told())
                .containsExactly(
                        "not-ready network bacnet 10.77.0.1:47808: the network interface cable is down or has no"
                                + " link; look at the cable and the addresses of this machine (ip -br address)");
        rig.addresses.remove(1);
        rig.pass(Duration.ofSeconds(10));
        assertThat(rig.told()).singleElement().asString().contains("this machine no longer has the address 10.77.0.1");
        assertThat(rig.troubles()).singleElement().extracting(Trouble::since).isEqualTo(since);
        rig.addresses.add(cable);
        rig.broadcast();
        rig.pass(Duration.ofSeconds(10));
        assertThat(rig.troubles()).isEmpty();
    }

    @Test
    void sendsThatFailAreToldWhileTheyGoOn() {
        Stamp first = rig.clock.now();
        rig.watch.sent();
        rig.watch.unsent("/10.9.9.9:47808", "Network is unreachable");
        rig.pass(Duration.ofMinutes(1));
        rig.watch.unsent("/10.9.9.9:47808", "Network is unreachable");
        assertThat(rig.told())
                .containsExactly("not-ready network bacnet 10.77.0.1:47808: cannot send, 2 times by now, at last to"
                        + " /10.9.9.9:47808: Network is unreachable; look at the addresses, routes and packet filter of"
                        + " this machine (ip -br address, ip route)");
        assertThat(rig.troubles()).singleElement().extracting(Trouble::since).isEqualTo(first);
        rig.watch.sent();
        assertThat(rig.troubles()).singleElement().extracting(Trouble::weight).isEqualTo(Trouble.Weight.DEGRADED);
        rig.pass(Duration.ofMinutes(2));
        assertThat(rig.troubles()).isEmpty();
    }
}
