package burnerbridge.web.access;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import burnerbridge.model.HandClock;
import burnerbridge.secret.SecretException;
import burnerbridge.site.WebSettings;
import burnerbridge.site.WebSettings.TokenPlace;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.time.Duration;
import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class TokenTest {
    private static final String FIRST = "a-first-token-of-the-bridge";
    private static final String SECOND = "another-one-that-is-longer-still";

    private final HandClock clock = new HandClock();
    private Path file = Path.of("/");

    @BeforeEach
    void write(@TempDir Path folder) throws IOException {
        file = folder.resolve("web.token");
        Files.writeString(file, FIRST + "\n");
        Files.setPosixFilePermissions(file, PosixFilePermissions.fromString("rw-------"));
    }

    private Token inFile() {
        return new Token(
                new WebSettings("192.0.2.7", 9311, Optional.of(new TokenPlace.InFile(file))),
                Map.of(WebSettings.TOKEN_VARIABLE, SECOND));
    }

    private void later(Token token) {
        clock.forward(Duration.ofSeconds(1));
        token.refresh(clock.now());
    }

    @Test
    void theFileGoesBeforeTheEnvironment() throws SecretException {
        Token token = inFile();
        token.read();
        assertThat(token.isAsked()).isTrue();
        assertThat(token.is(FIRST)).isTrue();
        assertThat(token.is(SECOND)).isFalse();
        assertThat(token.is("")).isFalse();
        assertThat(token.is(FIRST + " ")).isFalse();
    }

    @Test
    void onLoopbackTheEnvironmentMayHoldOne() throws SecretException {
        Token none = new Token(WebSettings.onLoopback(9311), Map.of(WebSettings.TOKEN_VARIABLE, ""));
        none.read();
        assertThat(none.isAsked()).isFalse();
        assertThat(none.is("")).isFalse();
        Token some = new Token(WebSettings.onLoopback(9311), Map.of(WebSettings.TOKEN_VARIABLE, FIRST));
        some.read();
        assertThat(some.isAsked()).isTrue();
        assertThat(some.is(FIRST)).isTrue();
    }

    @Test
    void whereTheEnvironmentIsToHoldOneItMust() throws SecretException {
        WebSettings settings = new WebSettings("0.0.0.0", 9311, Optional.of(new TokenPlace.InEnvironment()));
        assertThatThrownBy(() -> new Token(settings, Map.of()).read())
                .isInstanceOf(SecretException.class)
                .hasMessage("the environment variable BURNER_BRIDGE_WEB_TOKEN is to hold the token, and is empty or"
                        + " not there");
        Token token = new Token(settings, Map.of(WebSettings.TOKEN_VARIABLE, FIRST));
        token.read();
        assertThat(token.is(FIRST)).isTrue();
    }

    @ParameterizedTest
    @CsvSource({
        "fifteen-letters,must have 16 to 512 characters (has 15)",
        "with a blank in it or two,'must be of printable characters of ASCII, without blanks'",
        "schlüssel-der-brücke-12,'must be of printable characters of ASCII, without blanks'"
    })
    void whatIsNoTokenIsSaidWithoutShowingIt(String text, String objection) throws IOException {
        Files.writeString(file, text);
        assertThatThrownBy(() -> inFile().read())
                .isInstanceOf(SecretException.class)
                .hasMessage("the token in " + file + " " + objection);
        Token inEnvironment = new Token(WebSettings.onLoopback(1), Map.of(WebSettings.TOKEN_VARIABLE, text));
        assertThatThrownBy(inEnvironment::read)
                .hasMessage("the token in the environment variable BURNER_BRIDGE_WEB_TOKEN " + objection);
    }

    @Test
    void aFileThatIsNotOneLineIsRefused() throws IOException {
        Files.writeString(file, FIRST + "\n" + SECOND + "\n");
        assertThatThrownBy(() -> inFile().read())
                .hasMessage("the token file " + file + " must hold one line, the token");
        Files.writeString(file, "x".repeat(600));
        assertThatThrownBy(() -> inFile().read()).hasMessageContaining("is longer than 512 characters");
        Files.delete(file);
        assertThatThrownBy(() -> inFile().read())
                .hasMessage("the token file " + file + " cannot be read: there is no such file");
    }

    @Test
    void aChangedFileIsReadAgainOnceASecondAtMost() throws IOException, SecretException {
        Token token = inFile();
        token.read();
        token.refresh(clock.now());
        Files.writeString(file, SECOND + "\n");
        clock.forward(Duration.ofMillis(999));
        token.refresh(clock.now());
        assertThat(token.is(FIRST)).isTrue();
        clock.forward(Duration.ofMillis(1));
        token.refresh(clock.now());
        assertThat(token.is(SECOND)).isTrue();
        assertThat(token.is(FIRST)).isFalse();
    }

    @Test
    void whileTheChangedFileIsNoGoodTheTokenBeforeCountsAndItIsTold() throws IOException, SecretException {
        Token token = inFile();
        token.read();
        later(token);
        Files.delete(file);
        later(token);
        assertThat(token.is(FIRST)).isTrue();
        assertThat(token.trouble().orElseThrow().lookAt())
                .contains(file.toString())
                .contains("no such file");
        Files.writeString(file, SECOND);
        later(token);
        assertThat(token.is(SECOND)).isTrue();
        assertThat(token.trouble()).isEmpty();
    }

    @Test
    void whatIsWrongWithTheFileIsFoundBeforeTheStart() throws IOException {
        assertThat(findings()).isEmpty();
        Files.setPosixFilePermissions(file, PosixFilePermissions.fromString("rw-r--r--"));
        assertThat(findings())
                .containsExactly(new TokenCheck.Finding(
                        false, "every user of this machine can read " + file + "; chmod 600 keeps it"));
        Files.delete(file);
        assertThat(findings())
                .containsExactly(new TokenCheck.Finding(
                        false, "there is no file " + file + " here; it has to be where the bridge runs"));
        file = file.resolveSibling("nowhere").resolve("token");
        assertThat(findings().get(0).elsewhere()).isTrue();
        assertThat(TokenCheck.of(WebSettings.onLoopback(1))).isEmpty();
    }

    private java.util.List<TokenCheck.Finding> findings() {
        return TokenCheck.of(new WebSettings("192.0.2.7", 9311, Optional.of(new TokenPlace.InFile(file))));
    }
}
