package burnerbridge.web.http;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.model.HandClock;
import java.nio.ByteBuffer;
import java.time.Duration;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.Test;

class VisitsTest {
    private static final String HEAD = "GET /x HTTP/1.1\r\nHost: a\r\n\r\n";

    private final HandClock clock = new HandClock();
    private final Visits visits = new Visits();

    private Visit comes(HandWire wire, int size) {
        Visit visit = new Visit(wire, request -> Answer.text(200, "text/plain", "x".repeat(size)), clock.ticks());
        visits.add(visit);
        visit.step(ByteBuffer.allocate(8_192), clock.now());
        return visit;
    }

    private Visit silent() {
        return comes(new HandWire(), 1);
    }

    private Visit slow(int size) {
        HandWire wire = new HandWire();
        wire.takes(1);
        wire.comes(HEAD);
        return comes(wire, size);
    }

    private Visit leaving() {
        HandWire wire = new HandWire();
        wire.comes(HEAD);
        return comes(wire, 1);
    }

    @Test
    void whileThereIsRoomNobodyGoes() {
        for (int i = 0; i < Visits.MOST - 1; i++) {
            silent();
        }
        assertThat(visits.leastWorthWhenFull()).isEmpty();
    }

    @Test
    void theOldestThatHasNotAskedMakesRoom() {
        Visit answering = slow(10);
        Visit oldest = silent();
        while (visits.count() < Visits.MOST) {
            silent();
        }
        assertThat(visits.leastWorthWhenFull()).contains(oldest);
        visits.forget(oldest);
        silent();
        assertThat(visits.leastWorthWhenFull()).isPresent().get().isNotIn(oldest, answering);
    }

    @Test
    void whoHasItsAnswerGoesFirst() {
        silent();
        Visit answered = leaving();
        while (visits.count() < Visits.MOST) {
            silent();
        }
        assertThat(visits.leastWorthWhenFull()).contains(answered);
    }

    @Test
    void whereTooMuchWaitsTheOldestThatDoesNotTakeItGoes() {
        silent();
        Visit oldest = slow(6 << 20);
        slow(6 << 20);
        assertThat(visits.leastWorthWhenHeavy()).isEmpty();
        slow(6 << 20);
        assertThat(visits.leastWorthWhenHeavy()).contains(oldest);
    }

    @Test
    void theNextTimeIsThatOfWhoeverIsOutOfTimeFirst() {
        assertThat(visits.nextDue(clock.ticks())).isEqualTo(TimeUnit.MILLISECONDS.toNanos(250));
        silent();
        clock.forward(Duration.ofMillis(4_900));
        silent();
        assertThat(visits.nextDue(clock.ticks())).isEqualTo(TimeUnit.MILLISECONDS.toNanos(100));
        clock.forward(Duration.ofMillis(200));
        assertThat(visits.nextDue(clock.ticks())).isZero();
    }
}
