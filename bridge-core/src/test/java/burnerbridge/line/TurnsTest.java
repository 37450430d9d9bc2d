package burnerbridge.line;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.model.HandClock;
import burnerbridge.site.RegisterTable;
import burnerbridge.site.UnitId;
import java.time.Duration;
import org.junit.jupiter.api.Test;

class TurnsTest {
    private static final Duration PAUSE = Duration.ofMillis(120);

    private final HandClock clock = new HandClock();
    private final Doubts doubts = new Doubts(Duration.ofSeconds(2));
    private final Turns turns = new Turns(doubts, clock, nanos -> clock.forward(Duration.ofNanos(nanos)));

    private static ReadRequest of(int unit, boolean once) {
        return new ReadRequest(
                new UnitId(unit), RegisterTable.HOLDING_REGISTER, 0, 1, new ReadTerms(false, once, PAUSE));
    }

    private long left(ReadRequest request) {
        return Duration.ofNanos(turns.readyAt(request, clock.ticks()) - clock.ticks())
                .toMillis();
    }

    private long waited(ReadRequest request) {
        long before = clock.ticks();
        turns.await(request, () -> false);
        return Duration.ofNanos(clock.ticks() - before).toMillis();
    }

    @Test
    void aUnitIsLeftAloneForItsPauseAndTheOthersAreNot() {
        assertThat(left(of(1, false))).isZero();
        turns.ended(new UnitId(1));
        assertThat(left(of(1, false))).isEqualTo(120);
        assertThat(left(of(2, false))).isZero();
        clock.forward(Duration.ofMillis(100));
        assertThat(waited(of(1, false))).isEqualTo(20);
        clock.forward(Duration.ofHours(1));
        assertThat(left(of(1, false))).isZero();
    }

    @Test
    void whatIsAskedOnceWaitsUntilNoLateReplyCanCome() {
        doubts.asked(of(1, false), clock.now(), Duration.ZERO);
        assertThat(left(of(1, false))).isZero();
        assertThat(left(of(2, true))).isZero();
        assertThat(waited(of(1, true))).isEqualTo(2_000);
        assertThat(left(of(1, true))).isZero();
    }

    @Test
    void closingEndsAWait() {
        doubts.asked(of(1, false), clock.now(), Duration.ZERO);
        turns.await(of(1, true), () -> true);
        assertThat(left(of(1, true))).isEqualTo(2_000);
    }
}
