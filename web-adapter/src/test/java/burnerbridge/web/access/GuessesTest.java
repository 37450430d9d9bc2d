package burnerbridge.web.access;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.model.HandClock;
import java.net.InetAddress;
import java.net.UnknownHostException;
import java.time.Duration;
import org.junit.jupiter.api.Test;

class GuessesTest {
    private final HandClock clock = new HandClock();
    private final Guesses guesses = new Guesses();

    private static InetAddress peer(String address) throws UnknownHostException {
        return InetAddress.getByName(address);
    }

    private int howMany(InetAddress peer) {
        int count = 0;
        while (guesses.hasAny(peer, clock.ticks())) {
            guesses.wrong(peer, clock.ticks());
            count++;
        }
        return count;
    }

    @Test
    void tenAtOnceAndOneMoreEverySixSeconds() throws UnknownHostException {
        InetAddress peer = peer("192.0.2.7");
        assertThat(howMany(peer)).isEqualTo(10);
        clock.forward(Duration.ofMillis(5_999));
        assertThat(howMany(peer)).isZero();
        clock.forward(Duration.ofMillis(1));
        assertThat(howMany(peer)).isEqualTo(1);
        clock.forward(Duration.ofSeconds(20));
        assertThat(howMany(peer)).isEqualTo(3);
        clock.forward(Duration.ofSeconds(4));
        assertThat(howMany(peer)).isEqualTo(1);
        clock.forward(Duration.ofHours(1));
        assertThat(howMany(peer)).isEqualTo(10);
    }

    @Test
    void anHourOfGuessingIsSome600() throws UnknownHostException {
        InetAddress peer = peer("192.0.2.7");
        int count = 0;
        for (int i = 0; i < 36_000; i++) {
            count += howMany(peer);
            clock.forward(Duration.ofMillis(100));
        }
        assertThat(count).isBetween(605, 610);
    }

    @Test
    void othersAreNotHeldBack() throws UnknownHostException {
        howMany(peer("192.0.2.7"));
        assertThat(guesses.hasAny(peer("192.0.2.8"), clock.ticks())).isTrue();
        howMany(peer("2001:db8::1"));
        assertThat(guesses.hasAny(peer("2001:db8::2"), clock.ticks())).isFalse();
        assertThat(guesses.hasAny(peer("2001:db8:0:1::1"), clock.ticks())).isTrue();
    }

    @Test
    void thoseRememberedAreBounded() throws UnknownHostException {
        for (int i = 0; i < 5_000; i++) {
            guesses.wrong(peer("10.0." + i / 250 + "." + i % 250), clock.ticks());
        }
        assertThat(guesses.remembered()).isEqualTo(Guesses.MOST_PEERS);
    }
}
