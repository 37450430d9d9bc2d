package burnerbridge.simulator.controller;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.simulator.clock.Ticker;
import burnerbridge.simulator.controller.Habits.Habit;
import burnerbridge.simulator.device.WireRate;
import burnerbridge.simulator.frame.Frame;
import burnerbridge.simulator.frame.Transport;
import burnerbridge.simulator.manners.Act;
import burnerbridge.simulator.manners.Exchange;
import java.time.Duration;
import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.api.Test;

class HabitsTest {
    /** A character of 11 bits takes 1.1 ms. */
    private static final WireRate RATE = new WireRate(10_000, 11);

    private final HandTicker ticker = new HandTicker();
    private final Habits habits =
            new Habits(Map.of(2, new Habit(Duration.ofMillis(9), Duration.ofMillis(12))), RATE, ticker);

    @Test
    void aUnitTakesItsTurnaround() {
        assertThat(habits.toward(exchange(2))).first().isEqualTo(new Act.Pause(Duration.ofMillis(9)));
        assertThat(habits.toward(exchange(1))).first().isEqualTo(new Act.Pause(Duration.ZERO));
    }

    /** Its reply has 7 bytes: 9 ms of turnaround, 7.7 ms on the wire, 12 ms of rest. */
    @Test
    void aUnitThatHasNotRestedDoesNotAnswer() {
        assertThat(habits.toward(exchange(2))).hasSize(2);
        ticker.millis = 28;
        assertThat(habits.toward(exchange(2))).isEmpty();
        assertThat(habits.toward(exchange(1))).hasSize(2);
        ticker.millis = 29;
        assertThat(habits.toward(exchange(2))).hasSize(2);
    }

    private static Exchange exchange(int unit) {
        Frame request = new Frame(0, 0, unit, new byte[] {3, 0, 0, 0, 1});
        return new Exchange(
                Transport.RTU_OVER_TCP,
                request,
                request.withPdu(new byte[] {3, 2, 0, 7}),
                (u, pdu) -> Optional.empty(),
                Duration.ZERO,
                () -> Duration.ZERO);
    }

    private static final class HandTicker implements Ticker {
        long millis;

        @Override
        public long nanos() {
            return millis * 1_000_000;
        }

        @Override
        public void await(long nanos) {
            throw new AssertionError("nothing waits here");
        }
    }
}
