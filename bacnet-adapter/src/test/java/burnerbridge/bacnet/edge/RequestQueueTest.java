package burnerbridge.bacnet.edge;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.model.HandClock;
import com.serotonin.bacnet4j.npdu.NPDU;
import com.serotonin.bacnet4j.type.constructed.Address;
import com.serotonin.bacnet4j.util.sero.ByteQueue;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;

final class RequestQueueTest {
    private final HandClock clock = new HandClock();
    private final RequestQueue queue = new RequestQueue(new PeerLimits(10, 64), clock);

    private static NPDU from(int peer) {
        Address address = new Address(new byte[] {10, 0, (byte) (peer >> 8), (byte) peer, 0, 1});
        return new NPDU(address, null, new ByteQueue());
    }

    private List<NPDU> all() throws InterruptedException {
        List<NPDU> all = new ArrayList<>();
        for (NPDU next = queue.poll(0); next != null; next = queue.poll(0)) {
            all.add(next);
        }
        return all;
    }

    private int offered(int peer, int times) {
        int taken = 0;
        for (int i = 0; i < times; i++) {
            taken += queue.offer(from(peer)) ? 1 : 0;
        }
        return taken;
    }

    @Test
    void stationsTakeTurnsHoweverManyRequestsEachHas() throws InterruptedException {
        offered(1, 5);
        offered(2, 1);
        List<NPDU> order = all();
        assertThat(order.get(1).getFrom()).isEqualTo(from(2).getFrom());
        assertThat(order).hasSize(6);
    }

    @Test
    void oneStationIsSlowedToItsAllowanceAndLosesNothing() throws InterruptedException {
        assertThat(offered(1, 30)).isEqualTo(30);
        assertThat(all()).hasSize(10);
        clock.forward(Duration.ofMillis(500));
        assertThat(all()).hasSize(5);
        clock.forward(Duration.ofMillis(500));
        assertThat(all()).hasSize(5);
    }

    @Test
    void moreThanMayWaitIsRefusedToThatStationAlone() {
        assertThat(offered(1, 100)).isEqualTo(64);
        assertThat(offered(2, 1)).isEqualTo(1);
    }

    @Test
    void whatAnswersUsGoesFirst() throws InterruptedException {
        NPDU reply = from(9);
        offered(1, 3);
        assertThat(queue.offerFirst(reply)).isTrue();
        assertThat(all().get(0)).isSameAs(reply);
    }

    @Test
    void anyNumberOfStationsFindsABound() throws InterruptedException {
        int taken = 0;
        for (int peer = 0; peer < 5000; peer++) {
            taken += offered(peer, 1);
        }
        assertThat(taken).isEqualTo(1000);
        assertThat(all()).hasSize(1000);
        clock.forward(Duration.ofSeconds(2));
        assertThat(offered(4999, 1)).isEqualTo(1);
    }

    @Test
    void aHostThatFloodsIsToldFromOthers() {
        Flood flood = new Flood(new PeerLimits(10, 64), clock.ticks());
        java.net.InetAddress one = java.net.InetAddress.getLoopbackAddress();
        int let = 0;
        for (int i = 0; i < 1000; i++) {
            let += flood.isTooMuch(one, clock.ticks()) ? 0 : 1;
        }
        assertThat(let).isEqualTo(100);
        java.net.InetAddress other = new java.net.InetSocketAddress("192.0.2.7", 1).getAddress();
        assertThat(flood.isTooMuch(other, clock.ticks())).isFalse();
        clock.forward(Duration.ofMillis(100));
        assertThat(flood.isTooMuch(one, clock.ticks())).isFalse();
    }
}
