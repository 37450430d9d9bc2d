package burnerbridge.bacnet.edge;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.model.HandClock;
import java.net.InetSocketAddress;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;

/** Registration as a foreign device by ASHRAE 135, J.2 and J.5.2. */
final class ForeignDeviceTest {
    private static final InetSocketAddress MANAGER = new InetSocketAddress("192.0.2.1", 47808);

    private final HandClock clock = new HandClock();
    private final List<String> sent = new ArrayList<>();
    private final ForeignDevice device = new ForeignDevice(
            MANAGER, 60, (octets, to) -> sent.add(octets.hex() + " to " + to.getPort()), clock.ticks());

    private void step(Duration time) {
        clock.forward(time);
        device.step(clock.ticks());
    }

    @Test
    void itRegistersAndRenewsAtHalfOfItsTime() {
        step(Duration.ZERO);
        assertThat(sent).containsExactly("81 05 00 06 00 3C to 47808");
        assertThat(device.answered(0, MANAGER, clock.ticks())).isTrue();
        assertThat(device.state()).isEqualTo(ForeignDevice.State.REGISTERED);
        step(Duration.ofSeconds(29));
        assertThat(sent).hasSize(1);
        step(Duration.ofSeconds(1));
        assertThat(sent).hasSize(2);
        assertThat(device.answered(0, MANAGER, clock.ticks())).isTrue();
    }

    @Test
    void silenceIsToldAndAskedThroughEveryTenSeconds() {
        step(Duration.ZERO);
        step(Duration.ofSeconds(3));
        assertThat(device.state()).isEqualTo(ForeignDevice.State.NO_REPLY);
        step(Duration.ofSeconds(7));
        assertThat(sent).hasSize(2);
        assertThat(device.answered(0, MANAGER, clock.ticks())).isTrue();
        assertThat(device.state()).isEqualTo(ForeignDevice.State.REGISTERED);
    }

    @Test
    void aRegistrationLastsWhileARenewalIsNotAnsweredYet() {
        step(Duration.ZERO);
        device.answered(0, MANAGER, clock.ticks());
        step(Duration.ofSeconds(30));
        step(Duration.ofSeconds(3));
        assertThat(device.state()).isEqualTo(ForeignDevice.State.REGISTERED);
        step(Duration.ofSeconds(27));
        step(Duration.ofSeconds(3));
        assertThat(device.state()).isEqualTo(ForeignDevice.State.NO_REPLY);
    }

    @Test
    void aRefusalIsTold() {
        step(Duration.ZERO);
        device.answered(0x30, MANAGER, clock.ticks());
        assertThat(device.state()).isEqualTo(ForeignDevice.State.REFUSED);
    }

    @Test
    void whatNobodyAskedForOrAnotherSaysIsNoAnswer() {
        assertThat(device.answered(0, MANAGER, clock.ticks())).isFalse();
        step(Duration.ZERO);
        assertThat(device.answered(0, new InetSocketAddress("192.0.2.2", 47808), clock.ticks()))
                .isFalse();
        assertThat(device.answered(0x60, MANAGER, clock.ticks())).isFalse();
    }
}
