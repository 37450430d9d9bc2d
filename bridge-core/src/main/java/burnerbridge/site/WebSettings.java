package burnerbridge.site;

import java.net.InetAddress;
import java.net.UnknownHostException;
import java.nio.file.Path;
import java.util.Optional;

/**
 * The port over which health and metrics are asked for.
 *
 * @param bind an IPv4 or IPv6 address as numbers; 0.0.0.0 and :: are all of this machine's
 * @param port 0: one that is free
 * @param token where lies what must be shown; empty: the environment may hold it, on loopback alone
 */
public record WebSettings(String bind, int port, Optional<TokenPlace> token) {
    public static final String USUAL_BIND = "127.0.0.1";
    public static final int USUAL_PORT = 9311;

    /** The environment variable that holds the token where no file is named. */
    public static final String TOKEN_VARIABLE = "BURNER_BRIDGE_WEB_TOKEN";

    private static final String OCTET = "(25[0-5]|2[0-4][0-9]|1[0-9][0-9]|[1-9]?[0-9])";
    private static final String V4 = OCTET + "([.]" + OCTET + "){3}";
    /** As much as keeps it from being taken for a name. */
    private static final String V6 = "(?=.*:)[0-9A-Fa-f:][0-9A-Fa-f:.]*";

    /** Where a token lies. */
    public sealed interface TokenPlace {
        record InFile(Path file) implements TokenPlace {}

        record InEnvironment() implements TokenPlace {}
    }

    public WebSettings {
        if (port < 0 || port > 65535) {
            throw new IllegalArgumentException("a port is 0 to 65535 (was " + port + ")");
        }
        if (!address(bind).isLoopbackAddress() && token.isEmpty()) {
            throw new IllegalArgumentException("what others can reach needs a token (bound to " + bind + ")");
        }
    }

    /** On loopback, without a token. */
    public static WebSettings onLoopback(int port) {
        return new WebSettings(USUAL_BIND, port, Optional.empty());
    }

    /** The address to bind to. */
    public InetAddress address() {
        return address(bind);
    }

    /** Whether nothing but this machine can reach it. */
    public boolean isLoopback() {
        return address().isLoopbackAddress();
    }

    /** The file that holds the token, where one does. */
    public Optional<Path> tokenFile() {
        return token.filter(TokenPlace.InFile.class::isInstance).map(place -> ((TokenPlace.InFile) place).file());
    }

    /** As people and other programs write it: {@code [::1]:9311}. */
    public String hostAndPort() {
        return (bind.contains(":") ? "[" + bind + "]" : bind) + ":" + port;
    }

    /**
     * The address that such a text means; no name is ever looked up.
     *
     * @throws IllegalArgumentException where it is none
     */
    public static InetAddress address(String text) {
        try {
            if (text.matches(V4) || text.matches(V6)) {
                return InetAddress.getByName(text);
            }
        } catch (UnknownHostException e) {
            // Told below, as what is no address at all.
        }
        throw new IllegalArgumentException("no address in numbers: " + text);
    }
}
