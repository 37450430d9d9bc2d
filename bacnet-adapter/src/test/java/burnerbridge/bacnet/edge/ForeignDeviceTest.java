package burnerbridge.bacnet.edge;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.health.Trouble;
import burnerbridge.model.HandClock;
import burnerbridge.model.Stamp;
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
    private final ForeignDevice device =
            new ForeignDevice(MANAGER, 60, (octets, to) -> sent.add(octets.hex() + " to " + to.getPort()), clock.now());

    private void step(Duration time) {
        clock.forward(time);
        device.step(clock.now());
    }

    @Test
    void itRegistersAndRenewsAtHalfOfItsTime() {
        step(Duration.ZERO);
        assertThat(sent).containsExactly("81 05 00 06 00 3C to 47808");
        assertThat(device.answered(0, MANAGER, clock.now())).isTrue();
        assertThat(device.state()).isEqualTo(ForeignDevice.State.REGISTERED);
        step(Duration.ofSeconds(29));
        assertThat(sent).hasSize(1);
        step(Duration.ofSeconds(1));
        assertThat(sent).hasSize(2);
        assertThat(device.answered(0, MANAGER, clock.now())).isTrue();
    }

    @Test
    void silenceIsToldAndAskedThroughEveryTenSeconds() {
        step(Duration.ZERO);
        step(Duration.ofSeconds(3));
        assertThat(device.state()).isEqualTo(ForeignDevice.State.NO_REPLY);
        assertThat(told())
                .containsExactly("degraded network bacnet: 192.0.2.1:47808 does not answer the registration as"
                        + " a foreign device, so that no broadcast comes or goes; look at the way there, and"
                        + " bacnet.foreign-device in site.yaml");
        step(Duration.ofSeconds(7));
        assertThat(sent).hasSize(2);
        assertThat(device.answered(0, MANAGER, clock.now())).isTrue();
        assertThat(device.state()).isEqualTo(ForeignDevice.State.REGISTERED);
        assertThat(told()).isEmpty();
    }

    @Test
    void aTroubleSaysSinceWhenItIsThere() {
        step(Duration.ZERO);
        step(Duration.ofSeconds(3));
        Stamp silent = clock.now();
        step(Duration.ofSeconds(20));
        List<Trouble> troubles = new ArrayList<>();
        device.tell(troubles::add);
        assertThat(troubles).singleElement().extracting(Trouble::since).isEqualTo(silent);
    }

    private List<String> told() {
        List<String> told = new ArrayList<>();
        device.tell(trouble ->
                told.add(trouble.weight().word() + " " + trouble.place().word() + " " + trouble.sentence()));
        return told;
    }

    @Test
    void aRegistrationLastsWhileARenewalIsNotAnsweredYet() {
        step(Duration.ZERO);
        device.answered(0, MANAGER, clock.now());
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
        device.answered(0x30, MANAGER, clock.now());
        assertThat(device.state()).isEqualTo(ForeignDevice.State.REFUSED);
        assertThat(told()).singleElement().asString().contains("192.0.2.1:47808 refuses the registration");
    }

    @Test
    void whatNobodyAskedForOrAnotherSaysIsNoAnswer() {
        assertThat(device.answered(0, MANAGER, clock.now())).isFalse();
        step(Duration.ZERO);
        assertThat(device.answered(0, new InetSocketAddress("192.0.2.2", 47808), clock.now()))
                .isFalse();
        assertThat(device.answered(0x60, MANAGER, clock.now())).isFalse();
    }
}
