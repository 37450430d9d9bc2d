package burnerbridge.config.file;

import burnerbridge.config.yaml.YamlMap;
import burnerbridge.site.WebSettings;
import burnerbridge.site.WebSettings.TokenPlace;
import java.net.InetAddress;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.Set;
import java.util.TreeSet;

/** Reads the {@code web} part of {@code site.yaml}. Whether the token's file is there is seen when it is needed. */
final class WebReader {
    private static final String BIND = "bind";
    private static final String TOKEN = "token";
    private static final String TOKEN_FILE = "token-file";

    private final YamlMap map;
    private final OutsideFiles outside;

    WebReader(YamlMap map, OutsideFiles outside) {
        this.map = map;
        this.outside = outside;
    }

    Optional<WebSettings> read() {
        map.allowOnly(new TreeSet<>(List.of(BIND, "port", TOKEN, TOKEN_FILE)), Set.of());
        Optional<InetAddress> address = address();
        OptionalInt port = map.has("port") ? map.integer("port", 1, 65535) : OptionalInt.of(WebSettings.USUAL_PORT);
        Optional<Path> file = outside.secret(map, TOKEN_FILE);
        boolean inEnvironment = map.word(TOKEN, Set.of("environment")).isPresent();
        if (map.has(TOKEN) && map.has(TOKEN_FILE)) {
            map.error(TOKEN, "a token comes from the environment or from token-file, not from both");
            return Optional.empty();
        }
        if (address.isPresent() && !address.get().isLoopbackAddress() && !map.has(TOKEN) && !map.has(TOKEN_FILE)) {
            map.error(
                    BIND,
                    "others can reach " + bind() + ", which takes a token: name its file with token-file, or say"
                            + " 'token: environment' and set " + WebSettings.TOKEN_VARIABLE);
            return Optional.empty();
        }
        boolean tokenIsSound = (!map.has(TOKEN) || inEnvironment) && (!map.has(TOKEN_FILE) || file.isPresent());
        if (address.isEmpty() || port.isEmpty() || !tokenIsSound) {
            return Optional.empty();
        }
        Optional<TokenPlace> token =
                inEnvironment ? Optional.of(new TokenPlace.InEnvironment()) : file.map(TokenPlace.InFile::new);
        return Optional.of(new WebSettings(bind(), port.getAsInt(), token));
    }

    private String bind() {
        return map.text(BIND).orElse(WebSettings.USUAL_BIND);
    }

    private Optional<InetAddress> address() {
        if (map.has(BIND) && map.text(BIND).isEmpty()) {
            return Optional.empty();
        }
        try {
            return Optional.of(WebSettings.address(bind()));
        } catch (IllegalArgumentException e) {
            map.error(BIND, "must be an IPv4 or IPv6 address, like 127.0.0.1 or ::1 (was '" + bind() + "')");
            return Optional.empty();
        }
    }
}
