package burnerbridge.bacnet.device;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.model.HandClock;
import java.time.Duration;
import java.time.Instant;
import org.junit.jupiter.api.Test;

final class MonotonicClockTest {

    @Test
    void aStepOfTheWallClockIsNotSeen() {
        HandClock hand = new HandClock();
        MonotonicClock clock = new MonotonicClock(hand);
        Instant start = clock.instant();
        hand.setWall(start.plus(Duration.ofDays(400)));
        hand.forward(Duration.ofMillis(1500));
        assertThat(clock.instant()).isEqualTo(start.plusMillis(1500));
        assertThat(clock.millis()).isEqualTo(start.plusMillis(1500).toEpochMilli());
    }
}
