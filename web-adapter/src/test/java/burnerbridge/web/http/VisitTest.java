package burnerbridge.web.http;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.model.HandClock;
import burnerbridge.web.http.Visit.Phase;
import java.nio.ByteBuffer;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class VisitTest {
    private static final String HEAD = "GET /x HTTP/1.1\r\nHost: a\r\n\r\n";

    private final HandClock clock = new HandClock();
    private final HandWire wire = new HandWire();
    private final List<String> asked = new ArrayList<>();
    private final ByteBuffer scratch = ByteBuffer.allocate(8_192);
    private final Visit visit = new Visit(wire, this::answer, clock.ticks());

    private Answer answer(Request request) {
        asked.add(request.target());
        return Answer.text(200, "text/plain", "seen\n");
    }

    private void step() {
        visit.step(scratch, clock.now());
    }

    private void after(Duration time) {
        clock.forward(time);
        visit.expire(clock.now());
    }

    @Test
    void aRequestIsAnsweredAndTheConnectionEndsWithTheClient() {
        wire.comes(HEAD);
        step();
        assertThat(wire.sent()).isEqualTo("""
                HTTP/1.1 200 OK\r
                Date: Wed, 25 Nov 2026 08:00:00 GMT\r
                Content-Type: text/plain\r
                Content-Length: 5\r
                Cache-Control: no-store\r
                X-Content-Type-Options: nosniff\r
                Content-Security-Policy: default-src 'none'\r
                Connection: close\r
                \r
                seen
                """);
        assertThat(wire.outputEnded).isTrue();
        assertThat(wire.closed).isFalse();
        wire.ends();
        step();
        assertThat(wire.closed).isTrue();
        assertThat(visit.phase()).isEqualTo(Phase.GONE);
        assertThat(visit.status()).contains(200);
    }

    @Test
    void aClockThatIsNotBelievedGivesNoDate() {
        clock.believe(false);
        wire.comes(HEAD);
        step();
        assertThat(wire.sent()).contains("200 OK").doesNotContain("Date:");
    }

    @Test
    void headHasTheHeadersOfGetAndNoContent() {
        wire.comes(HEAD.replace("GET", "HEAD"));
        step();
        assertThat(wire.sent()).contains("Content-Length: 5\r\n").endsWith("\r\n\r\n");
    }

    @Test
    void whatComesBehindTheRequestIsNeverAnswered() {
        wire.comes(HEAD + HEAD.replace("/x", "/second") + "body");
        step();
        step();
        step();
        assertThat(asked).containsExactly("/x");
        assertThat(wire.sent().split("HTTP/1[.]1 ", -1)).hasSize(2);
    }

    @Test
    void aClientThatSendsForEverIsLeft() {
        wire.comes(HEAD + "b".repeat(100_000));
        for (int i = 0; i < 20; i++) {
            step();
        }
        assertThat(visit.phase()).isEqualTo(Phase.GONE);
        assertThat(wire.closed).isTrue();
    }

    @Test
    void aClientThatStaysAfterItsAnswerIsLeftAfterASecond() {
        wire.comes(HEAD);
        step();
        after(Duration.ofMillis(999));
        assertThat(visit.phase()).isEqualTo(Phase.LEAVING);
        after(Duration.ofMillis(1));
        assertThat(wire.closed).isTrue();
    }

    @Test
    void whoSaysNothingIsLeftWithoutAWord() {
        after(Duration.ofMillis(4_999));
        assertThat(wire.closed).isFalse();
        after(Duration.ofMillis(1));
        assertThat(wire.closed).isTrue();
        assertThat(wire.sent()).isEmpty();
    }

    @Test
    void whoSaysItsHeadDropByDropIsToldThatItIsTooSlow() {
        for (char octet : "GET / HTTP/1.1\r\nHost: a\r\n".toCharArray()) {
            wire.comes(String.valueOf(octet));
            step();
            after(Duration.ofMillis(150));
        }
        assertThat(visit.phase()).isEqualTo(Phase.ASKING);
        after(Duration.ofMillis(5_000 - 25 * 150L));
        assertThat(wire.sent()).startsWith("HTTP/1.1 408 Request Timeout\r\n");
        assertThat(visit.status()).contains(408);
        assertThat(asked).isEmpty();
    }

    @Test
    void anAnswerIsWrittenAsItIsTakenAndForTenSecondsAtMost() {
        wire.takes(10);
        wire.comes(HEAD);
        step();
        assertThat(visit.phase()).isEqualTo(Phase.ANSWERING);
        assertThat(visit.waiting()).isPositive();
        after(Duration.ofSeconds(9));
        wire.takes(10);
        step();
        assertThat(wire.sent()).hasSize(20);
        after(Duration.ofMillis(1_000));
        assertThat(wire.closed).isTrue();
        assertThat(visit.waiting()).isZero();
    }

    @Test
    void aClientThatGoesBeforeItHasAskedIsForgotten() {
        wire.comes("GET /");
        step();
        wire.ends();
        step();
        assertThat(visit.phase()).isEqualTo(Phase.GONE);
        assertThat(wire.sent()).isEmpty();
    }

    @ParameterizedTest
    @ValueSource(booleans = {false, true})
    void aConnectionThatBreaksEndsTheVisitAlone(boolean afterTheAnswer) {
        if (afterTheAnswer) {
            wire.comes(HEAD);
            step();
        }
        wire.broken = true;
        step();
        assertThat(visit.phase()).isEqualTo(Phase.GONE);
        assertThat(wire.closed).isTrue();
        step();
        assertThat(visit.expire(clock.now())).isFalse();
    }
}
