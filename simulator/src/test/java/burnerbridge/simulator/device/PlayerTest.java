package burnerbridge.simulator.device;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.simulator.clock.Ticker;
import burnerbridge.simulator.manners.Act;
import java.time.Duration;
import java.util.ArrayList;
import java.util.HexFormat;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;

/** At 9600 baud and 10 bits a character takes 1.0417 ms and 3.5 of them take 3.6458 ms. */
class PlayerTest {
    private static final long CAME = 7_000_000_000L;
    private static final WireRate SLOW = new WireRate(9600, 10);

    /** Time passes only by waiting for it. */
    private static final class Hands implements Ticker, Outlet {
        private final List<String> done = new ArrayList<>();
        private long now = CAME;

        @Override
        public long nanos() {
            return now;
        }

        @Override
        public void await(long nanos) {
            now = Math.max(now, nanos);
        }

        @Override
        public void write(byte[] bytes) {
            note(HexFormat.of().formatHex(bytes));
        }

        @Override
        public void hangUp() {
            note("hang up");
        }

        @Override
        public void refuse(Duration length) {
            note("refuse " + length);
        }

        private void note(String what) {
            done.add((now - CAME) / 1000 + ": " + what);
        }
    }

    private final Hands hands = new Hands();

    private List<String> played(Optional<WireRate> rate, Act... acts) throws Exception {
        new Player(hands, rate).play(List.of(acts), CAME, hands);
        return hands.done;
    }

    @Test
    void bytesLeaveWhenTheWireWouldHaveBroughtThem() throws Exception {
        assertThat(played(Optional.of(SLOW), send("0102"), send("03")))
                .containsExactly("4687: 01", "5729: 02", "6770: 03");
    }

    @Test
    void fastWiresBringLotsOfAMillisecond() throws Exception {
        // 86.8 µs a character, 11 in a millisecond, after 1.75 ms of silence.
        assertThat(played(Optional.of(new WireRate(115_200, 10)), send("00".repeat(12))))
                .containsExactly("2704: " + "00".repeat(11), "2791: 00");
    }

    @Test
    void withoutARateBytesLeaveAtOnce() throws Exception {
        assertThat(played(Optional.empty(), send("0102"), new Act.HangUp())).containsExactly("0: 0102", "0: hang up");
    }

    @Test
    void pausesAndDelaysAreKept() throws Exception {
        assertThat(played(
                        Optional.empty(),
                        new Act.NotBefore(Duration.ofMillis(30)),
                        send("01"),
                        new Act.Pause(Duration.ofMillis(5)),
                        send("02"),
                        new Act.NotBefore(Duration.ofMillis(20)),
                        send("03"),
                        new Act.Refuse(Duration.ofSeconds(1))))
                .containsExactly("30000: 01", "35000: 02", "35000: 03", "35000: refuse PT1S");
    }

    @Test
    void whatComesTooLateToBeInTimeIsNotHurriedAfterwards() throws Exception {
        hands.now = CAME + 50_000_000;

        assertThat(played(Optional.of(SLOW), send("01"))).containsExactly("51041: 01");
    }

    private static Act send(String hex) {
        return new Act.Send(HexFormat.of().parseHex(hex));
    }
}
