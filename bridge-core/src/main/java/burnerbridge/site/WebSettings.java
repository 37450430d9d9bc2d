package burnerbridge.site;

import java.net.InetAddress;
import java.net.UnknownHostException;
import java.nio.file.Path;
import java.util.Optional;

/**
 * The port over which health and metrics are asked for.
 *
 * @param bind an IPv4 or IPv6 address as numbers; 0.0.0.0 and :: are all of this machine's
 * @param tokenFile holds what must be shown; empty: the environment may hold it
 * @param tokenFromEnvironment whether the environment must hold it
 */
public record WebSettings(String bind, int port, Optional<Path> tokenFile, boolean tokenFromEnvironment) {
    public static final String USUAL_BIND = "127.0.0.1";
    public static final int USUAL_PORT = 9311;

    /** The environment variable that holds the token where no file is named. */
    public static final String TOKEN_VARIABLE = "BURNER_BRIDGE_WEB_TOKEN";

    public WebSettings {
        if (port < 0 || port > 65535) {
            throw new IllegalArgumentException("a port is 0 to 65535 (was " + port + ")");
        }
        if (tokenFile.isPresent() && tokenFromEnvironment) {
            throw new IllegalArgumentException("a token comes from a file or from the environment, not from both");
        }
        boolean named = tokenFile.isPresent() || tokenFromEnvironment;
        if (!address(bind).isLoopbackAddress() && !named) {
            throw new IllegalArgumentException("what others can reach needs a token (bound to " + bind + ")");
        }
    }

    /** On loopback, without a token. */
    public static WebSettings onLoopback(int port) {
        return new WebSettings(USUAL_BIND, port, Optional.empty(), false);
    }

    /** The address to bind to. */
    public InetAddress address() {
        return address(bind);
    }

    /** Whether nothing but this machine can reach it. */
    public boolean isLoopback() {
        return address().isLoopbackAddress();
    }

    /**
     * The address that such a text means; no name is ever looked up.
     *
     * @throws IllegalArgumentException where it is none
     */
    public static InetAddress address(String text) {
        boolean numbers = text.matches("[0-9]{1,3}([.][0-9]{1,3}){3}") || text.matches("[0-9A-Fa-f:.]*:[0-9A-Fa-f:.]*");
        try {
            if (numbers) {
                return InetAddress.getByName(text);
            }
        } catch (UnknownHostException e) {
            // Told below, as what is no address at all.
        }
        throw new IllegalArgumentException("no address in numbers: " + text);
    }
}
