package burnerbridge.web.http;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.web.http.HeadReader.Outcome;
import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class HeadReaderTest {
    private static final String FINE =
            "GET /health HTTP/1.1\r\nHost: localhost\r\nAccept: a/b\r\nX: 1\r\nx:\t2 \r\n\r\n";

    private static ByteBuffer octets(String text) {
        return ByteBuffer.wrap(text.getBytes(StandardCharsets.ISO_8859_1));
    }

    private static int refusal(String head) {
        Outcome outcome = new HeadReader().take(octets(head)).orElseThrow();
        return ((Outcome.Refused) outcome).answer().status();
    }

    private static Request request(Optional<Outcome> outcome) {
        return ((Outcome.Whole) outcome.orElseThrow()).request();
    }

    @Test
    void aHeadIsTakenApartWhereverItIsCut() {
        Request whole = request(new HeadReader().take(octets(FINE)));
        assertThat(whole.method()).isEqualTo("GET");
        assertThat(whole.target()).isEqualTo("/health");
        assertThat(whole.minor()).isEqualTo(1);
        assertThat(whole.single("accept")).contains("a/b");
        assertThat(whole.headers()).containsEntry("x", List.of("1", "2"));
        assertThat(whole.single("x")).isEmpty();
        assertThat(whole.hasBody()).isFalse();
        for (int cut = 1; cut < FINE.length(); cut++) {
            HeadReader reader = new HeadReader();
            assertThat(reader.take(octets(FINE.substring(0, cut)))).isEmpty();
            assertThat(request(reader.take(octets(FINE.substring(cut))))).isEqualTo(whole);
        }
    }

    @Test
    void whatComesBehindTheHeadIsLeft() {
        ByteBuffer two = octets(FINE + "POST /");
        assertThat(new HeadReader().take(two)).isPresent();
        assertThat(two.remaining()).isEqualTo(6);
    }

    @Test
    void aRequestOf10NeedsNoHost() {
        assertThat(request(new HeadReader().take(octets("GET /health HTTP/1.0\r\n\r\n")))
                        .minor())
                .isZero();
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "GET /health\r\n",
                "\r\n",
                " GET / HTTP/1.1\r\n",
                "GET  / HTTP/1.1\r\n",
                "GET / HTTP/1.1 \r\n",
                "GET / http/1.1\r\n",
                "GET / HTTP/1.10\r\n",
                "G(T / HTTP/1.1\r\n",
                "GET /\u00e9 HTTP/1.1\r\n",
                "GET /a b HTTP/1.1\r\n",
                "\u0016\u0003\u0001",
                "GET /\0",
                "GET /\u007f",
                "GET / HTTP/1.1\n",
                "GET / HTTP/1.1\rX",
                "GET / HTTP/1.1\r\r",
                "GET / HTTP/1.1\r\n\n",
                "GET / HTTP/1.1\r\n\r\n",
                "GET / HTTP/1.1\r\nHost: a\r\nHost: a\r\n\r\n",
                "GET / HTTP/1.1\r\nHost: a\r\n folded\r\n\r\n",
                "GET / HTTP/1.1\r\nHost : a\r\n\r\n",
                "GET / HTTP/1.1\r\nHost: a\r\nnothing\r\n\r\n",
                "GET / HTTP/1.1\r\nHost: a\r\n: b\r\n\r\n"
            })
    void whatIsNoRequestIsRefusedAsSoonAsItIsSeen(String head) {
        assertThat(refusal(head)).isEqualTo(400);
    }

    @ParameterizedTest
    @CsvSource({"PRI * HTTP/2.0", "GET / HTTP/1.2", "GET / HTTP/0.9", "GET / HTTP/9.9"})
    void otherVersionsAreRefused(String line) {
        assertThat(refusal(line + "\r\n")).isEqualTo(505);
    }

    @Test
    void aLongRequestLineIsRefusedBeforeItEnds() {
        assertThat(new HeadReader().take(octets("GET /" + "a".repeat(1_019)))).isEmpty();
        assertThat(refusal("GET /" + "a".repeat(1_020))).isEqualTo(414);
    }

    @Test
    void aLongHeadIsRefusedBeforeItEnds() {
        String start = "GET / HTTP/1.1\r\nHost: a\r\nX: ";
        assertThat(new HeadReader().take(octets(start + "a".repeat(8_191 - start.length()))))
                .isEmpty();
        assertThat(refusal(start + "a".repeat(8_192 - start.length()))).isEqualTo(431);
    }

    @Test
    void aHeadOfJustTheSizeThatIsAllowedIsTaken() {
        String start = "GET / HTTP/1.1\r\nHost: a\r\nX: ";
        String head = start + "a".repeat(8_192 - 4 - start.length()) + "\r\n\r\n";
        assertThat(request(new HeadReader().take(octets(head))).target()).isEqualTo("/");
        assertThat(refusal(head.replace("\r\n\r\n", "a\r\n\r\n"))).isEqualTo(431);
    }

    @Test
    void manyHeadersAreRefused() {
        assertThat(refusal("GET / HTTP/1.1\r\nHost: a\r\n" + "X: y\r\n".repeat(64) + "\r\n"))
                .isEqualTo(431);
        Optional<Outcome> just =
                new HeadReader().take(octets("GET / HTTP/1.1\r\nHost: a\r\n" + "X: y\r\n".repeat(63) + "\r\n"));
        assertThat(request(just).headers().get("x")).hasSize(63);
    }

    @ParameterizedTest
    @CsvSource({
        "Content-Length: 0,false",
        "Content-Length: 1,true",
        "Content-Length: 00,true",
        "Content-Length: x,true",
        "Transfer-Encoding: chunked,true"
    })
    void aBodyIsWhatTheHeadSays(String header, boolean has) {
        String head = "GET / HTTP/1.1\r\nHost: a\r\n" + header + "\r\n\r\n";
        assertThat(request(new HeadReader().take(octets(head))).hasBody()).isEqualTo(has);
    }
}
