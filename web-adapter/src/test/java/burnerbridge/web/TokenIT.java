package burnerbridge.web;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.health.Trouble;
import burnerbridge.site.WebSettings;
import burnerbridge.site.WebSettings.TokenPlace;
import ch.qos.logback.classic.Logger;
import ch.qos.logback.classic.spi.ILoggingEvent;
import ch.qos.logback.core.read.ListAppender;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.slf4j.LoggerFactory;

/** Bound to all addresses, as whoever is elsewhere finds it. */
class TokenIT {
    private static final String TOKEN = "a-token-of-the-bridge-0123456789";
    private static final String OTHER = "another-token-of-the-bridge-98765";

    private final ListAppender<ILoggingEvent> log = new ListAppender<>();
    private Path file = Path.of("/");

    @SuppressWarnings("NullAway.Init")
    private WebRig rig;

    @BeforeEach
    void start(@TempDir Path folder) throws IOException, WebStartException {
        file = folder.resolve("web.token");
        Files.writeString(file, TOKEN + "\n");
        Files.setPosixFilePermissions(file, PosixFilePermissions.fromString("rw-------"));
        log.start();
        logger().addAppender(log);
        rig = new WebRig(new WebSettings("0.0.0.0", 0, Optional.of(new TokenPlace.InFile(file))), Map.of());
    }

    @AfterEach
    void close() {
        rig.close();
        logger().detachAppender(log);
    }

    private static Logger logger() {
        return (Logger) LoggerFactory.getLogger("burnerbridge.web");
    }

    private List<String> told() {
        return List.copyOf(log.list).stream()
                .map(ILoggingEvent::getFormattedMessage)
                .toList();
    }

    private String ask(String authorization) throws IOException {
        return ask("/health", authorization);
    }

    private String ask(String target, String authorization) throws IOException {
        return rig.ask("GET " + target + " HTTP/1.1\r\nHost: bridge.example\r\n" + authorization + "\r\n");
    }

    private int status(String authorization) throws IOException {
        return RawClient.status(ask(authorization));
    }

    private static String bearer(String token) {
        return "Authorization: Bearer " + token + "\r\n";
    }

    @Test
    void whoShowsTheTokenIsAnswered() throws IOException {
        assertThat(status(bearer(TOKEN))).isEqualTo(200);
        assertThat(status("authorization:bearer  " + TOKEN + " \r\n")).isEqualTo(200);
        assertThat(RawClient.status(ask("/metrics", bearer(TOKEN)))).isEqualTo(200);
        assertThat(RawClient.status(ask("/nowhere", bearer(TOKEN)))).isEqualTo(404);
    }

    @Test
    void whoDoesNotLearnsNothing() throws IOException {
        List<String> answers = new ArrayList<>();
        for (String wrong : List.of(
                "",
                bearer(OTHER),
                bearer(TOKEN + "x"),
                bearer(TOKEN.substring(1)),
                "Authorization: Basic " + TOKEN + "\r\n",
                "Authorization: " + TOKEN + "\r\n",
                bearer(TOKEN) + bearer(TOKEN))) {
            String answer = ask(wrong);
            assertThat(RawClient.status(answer)).as(wrong).isEqualTo(401);
            assertThat(answer).contains("\r\nWWW-Authenticate: Bearer\r\n");
            answers.add(answer);
        }
        answers.add(ask("/nowhere", ""));
        answers.add(ask("/metrics", ""));
        assertThat(answers).containsOnly(answers.get(0));
        assertThat(RawClient.status(rig.ask("POST /health HTTP/1.1\r\nHost: a\r\n\r\n")))
                .isEqualTo(401);
    }

    @Test
    void whoGuessesIsHeardMoreAndMoreSeldom() throws IOException {
        for (int i = 0; i < 10; i++) {
            assertThat(status(bearer(OTHER + i))).isEqualTo(401);
        }
        assertThat(ask(bearer(OTHER))).startsWith("HTTP/1.1 429 ").contains("\r\nRetry-After: 6\r\n");
        assertThat(status(bearer(TOKEN))).isEqualTo(429);
        rig.clock.forward(Duration.ofSeconds(6));
        assertThat(status(bearer(TOKEN))).isEqualTo(200);
        assertThat(status(bearer(OTHER))).isEqualTo(401);
        assertThat(status(bearer(OTHER))).isEqualTo(429);
    }

    @Test
    void strangersAreToldOnceAMinuteWithTheirAddressAndNeverATokenOfTheirs() throws IOException {
        for (int i = 0; i < 5; i++) {
            status(bearer(OTHER));
        }
        rig.clock.forward(Duration.ofMinutes(1));
        status("");
        assertThat(told())
                .filteredOn(line -> line.contains("refused"))
                .containsExactly(
                        "web: 127.0.0.1 is refused: a wrong token",
                        "web: 127.0.0.1 is refused: no token; 5 refusals since the last such line");
        assertThat(told()).noneMatch(line -> line.contains(OTHER) || line.contains(TOKEN));
    }

    @Test
    void aNewTokenCountsAsSoonAsItsFileHasIt() throws IOException {
        assertThat(status(bearer(TOKEN))).isEqualTo(200);
        Files.writeString(file, OTHER + "\n");
        rig.clock.forward(Duration.ofSeconds(1));
        assertThat(status(bearer(OTHER))).isEqualTo(200);
        assertThat(status(bearer(TOKEN))).isEqualTo(401);
        assertThat(told()).contains("web: the token was read again");
    }

    @Test
    void aFileThatIsGoneIsATroubleAndShutsNobodyOut() throws IOException {
        Files.delete(file);
        rig.clock.forward(Duration.ofSeconds(1));
        assertThat(status(bearer(TOKEN))).isEqualTo(200);
        List<Trouble> troubles = new ArrayList<>();
        rig.adapter().tell(troubles::add);
        assertThat(troubles)
                .singleElement()
                .satisfies(trouble -> assertThat(trouble.sentence())
                        .isEqualTo("web: the token's file has changed and cannot be used, the token before counts on;"
                                + " look at the token file " + file + " cannot be read: there is no such file"));
    }

    @Test
    void aTokenThatAllCanReadIsToldOnce() throws Exception {
        rig.close();
        Files.setPosixFilePermissions(file, PosixFilePermissions.fromString("rw-r--r--"));
        rig = new WebRig(new WebSettings("0.0.0.0", 0, Optional.of(new TokenPlace.InFile(file))), Map.of());
        assertThat(told()).contains("web: every user of this machine can read " + file + "; chmod 600 keeps it");
    }

    @Test
    void onLoopbackATokenInTheEnvironmentIsAskedForToo() throws Exception {
        try (WebRig loopback = new WebRig(WebSettings.onLoopback(0), Map.of(WebSettings.TOKEN_VARIABLE, TOKEN))) {
            String head = "GET /health HTTP/1.1\r\nHost: localhost\r\n";
            assertThat(loopback.status(head + "\r\n")).isEqualTo(401);
            assertThat(loopback.status(head + bearer(TOKEN) + "\r\n")).isEqualTo(200);
        }
    }
}
