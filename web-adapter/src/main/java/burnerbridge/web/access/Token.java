package burnerbridge.web.access;

import burnerbridge.model.Stamp;
import burnerbridge.secret.FileMark;
import burnerbridge.secret.SecretException;
import burnerbridge.secret.SecretFile;
import burnerbridge.site.WebSettings;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.TimeUnit;
import org.jspecify.annotations.Nullable;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * What must be shown by whoever asks, if anything. Its file is read again when it has become another; while that one
 * cannot be used, the one before counts. The web thread uses it after the start; any thread may ask for its trouble.
 */
public final class Token {
    public static final int SHORTEST = 16;
    public static final int LONGEST = 512;
    static final long LOOK = TimeUnit.SECONDS.toNanos(1);
    private static final Logger LOG = LoggerFactory.getLogger(Token.class);
    private static final String VARIABLE = "the environment variable " + WebSettings.TOKEN_VARIABLE;

    private final WebSettings settings;
    private final Map<String, String> environment;
    private byte @Nullable [] digest;
    private @Nullable FileMark mark;
    private boolean toldOpen;
    private boolean hasLooked;
    private long lookedAt;
    private volatile @Nullable Unusable unusable;

    /** What is wrong with the token. */
    public record Unusable(String seen, String lookAt, Stamp since) {}

    public Token(WebSettings settings, Map<String, String> environment) {
        this.settings = settings;
        this.environment = environment;
    }

    /**
     * Reads it from where the settings say, or from the environment.
     *
     * @throws SecretException where one is wanted and cannot be used; the one before counts on
     */
    public void read() throws SecretException {
        Optional<Path> file = settings.tokenFile();
        if (file.isPresent()) {
            // Marked before it is read: a change in between is seen as one.
            mark = FileMark.of(file.get());
            digest = digest(inFile(file.get()));
            tellOpen(file.get());
            return;
        }
        String variable = environment.getOrDefault(WebSettings.TOKEN_VARIABLE, "");
        if (!variable.isEmpty()) {
            Optional<String> objection = objectionTo(variable);
            if (objection.isPresent()) {
                throw new SecretException("the token in " + VARIABLE + " " + objection.get());
            }
            digest = digest(variable);
        } else if (settings.token().isPresent()) {
            throw new SecretException(VARIABLE + " is to hold the token, and is empty or not there");
        }
    }

    /**
     * The token that a file holds.
     *
     * @throws SecretException where it cannot be read or is none
     */
    static String inFile(Path file) throws SecretException {
        String token = SecretFile.line(file, "token", LONGEST + 2L, "longer than " + LONGEST + " characters");
        Optional<String> objection = objectionTo(token);
        if (objection.isPresent()) {
            throw new SecretException("the token in " + file + " " + objection.get());
        }
        return token;
    }

    private static Optional<String> objectionTo(String token) {
        if (token.length() < SHORTEST || token.length() > LONGEST) {
            return Optional.of("must have " + SHORTEST + " to " + LONGEST + " characters (has " + token.length() + ")");
        }
        return token.matches("[!-~]+")
                ? Optional.empty()
                : Optional.of("must be of printable characters of ASCII, without blanks");
    }

    public boolean isAsked() {
        return digest != null;
    }

    /** Whether this is it; takes as long whatever is the same in both. */
    boolean is(String shown) {
        byte @Nullable [] expected = digest;
        return expected != null && MessageDigest.isEqual(expected, digest(shown));
    }

    /** Looks whether the file is another, once a second at most. */
    void refresh(Stamp now) {
        Optional<Path> file = settings.tokenFile();
        if (file.isEmpty() || (hasLooked && now.ticks() - lookedAt < LOOK)) {
            return;
        }
        hasLooked = true;
        lookedAt = now.ticks();
        if (FileMark.of(file.get()).equals(mark)) {
            return;
        }
        try {
            read();
            unusable = null;
            LOG.info("web: the token was read again");
        } catch (SecretException e) {
            unusable = new Unusable(
                    "the token's file has changed and cannot be used, the token before counts on",
                    String.valueOf(e.getMessage()),
                    now);
            LOG.warn(
                    "web: the token's file has changed and cannot be used, the token before counts on: {}",
                    e.getMessage());
        }
    }

    /** What is wrong with it right now. For any thread. */
    public Optional<Unusable> trouble() {
        return Optional.ofNullable(unusable);
    }

    private void tellOpen(Path file) {
        if (!toldOpen && FileMark.isReadableByAll(file)) {
            toldOpen = true;
            LOG.warn("web: every user of this machine can read {}; chmod 600 keeps it", file);
        }
    }

    /** Of one length, so that not even that of the token shows. */
    private static byte[] digest(String text) {
        try {
            return MessageDigest.getInstance("SHA-256").digest(text.getBytes(StandardCharsets.UTF_8));
        } catch (NoSuchAlgorithmException e) {
            throw new IllegalStateException("every Java has SHA-256", e);
        }
    }
}
