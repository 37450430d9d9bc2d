package burnerbridge.simulator.manners;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import burnerbridge.simulator.frame.Transport;
import burnerbridge.simulator.manners.Mixture.Share;
import java.time.Duration;
import java.util.Arrays;
import java.util.List;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;

class MixtureTest {
    private static final Transport RTU = Transport.RTU_OVER_TCP;

    private static Mixture mixture(long seed) {
        List<Share> shares = Arrays.stream(Misbehaviour.values())
                .filter(what -> what.makesSenseOn(RTU))
                .map(what -> new Share(what, 1, 3, 9, 2))
                .toList();
        return new Mixture(seed, 10, shares, Duration.ofSeconds(1));
    }

    private static List<String> played(Mixture mixture, int requests) {
        return IntStream.range(0, requests)
                .mapToObj(i -> Exchanges.told(mixture.toward(Exchanges.on(RTU))))
                .toList();
    }

    @Test
    void theSameSeedPlaysTheSame() {
        assertThat(played(mixture(7), 500)).isEqualTo(played(mixture(7), 500));
        assertThat(played(mixture(7), 500)).isNotEqualTo(played(mixture(8), 500));
    }

    @Test
    void everyShareIsPlayedAndCounted() {
        Mixture mixture = mixture(7);
        played(mixture, 3000);

        assertThat(mixture.played())
                .hasSize((int) Arrays.stream(Misbehaviour.values())
                        .filter(what -> what.makesSenseOn(RTU))
                        .count())
                .allSatisfy((what, count) -> assertThat(count).isGreaterThan(10));
        assertThat(mixture.well()).isGreaterThan(100);
    }

    @Test
    void withNoShareItBehavesWell() {
        Mixture mixture = new Mixture(7, 1, List.of(), Duration.ZERO);

        assertThat(played(mixture, 10)).containsOnly(Exchanges.REPLY);
        assertThat(mixture.last()).isEqualTo("well");
    }

    @Test
    void aShareWithoutWeightIsRefused() {
        assertThatThrownBy(() -> Share.of(Misbehaviour.BUSY, 0))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessageContaining("busy has 0");
    }
}
