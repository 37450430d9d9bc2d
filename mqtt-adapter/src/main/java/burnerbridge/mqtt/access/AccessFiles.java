package burnerbridge.mqtt.access;

import burnerbridge.mqtt.broker.Access;
import burnerbridge.secret.FileMark;
import burnerbridge.secret.SecretException;
import burnerbridge.secret.SecretFile;
import burnerbridge.site.MqttSettings;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;

/**
 * Reads what the settings name, anew each time: a renewed certificate or password counts from the next
 * connection on. One thread uses it.
 *
 * <p>The environment variables {@value #USER} and {@value #PASSWORD} are taken where the settings name no
 * user and no file.
 */
public final class AccessFiles {
    static final String USER = "BURNER_BRIDGE_MQTT_USER";
    static final String PASSWORD = "BURNER_BRIDGE_MQTT_PASSWORD";
    private static final long LONGEST_PASSWORD = 65_535;

    private final MqttSettings settings;
    private final Map<String, String> environment;
    private List<FileMark> marks = List.of();
    private List<Lifetime> lifetimes = List.of();

    public AccessFiles(MqttSettings settings, Map<String, String> environment) {
        this.settings = settings;
        this.environment = environment;
    }

    /** @throws AccessException where something that is named cannot be used */
    public Access read() throws AccessException {
        // Marked before they are read: a change in between is seen as one.
        marks = files().map(FileMark::of).toList();
        KeyRing ring = KeyRing.of(settings.tls());
        lifetimes = ring.lifetimes();
        Optional<String> user = settings.user().or(() -> variable(USER));
        @Nullable String password = password();
        if (password != null && user.isEmpty()) {
            throw new AccessException("there is a password but no user: say 'user' in site.yaml, or set " + USER);
        }
        return new Access(user.orElse(null), password, ring.sockets());
    }

    /** Whether a file is another than at the last {@link #read}. */
    public boolean haveChanged() {
        return !marks.equals(files().map(FileMark::of).toList());
    }

    /** From when to when the certificates of the last {@link #read} hold. */
    public List<Lifetime> lifetimes() {
        return lifetimes;
    }

    /** Files with secrets that every user of this machine can read. */
    public List<Path> openSecrets() {
        List<Path> open = new ArrayList<>();
        secrets().filter(FileMark::isReadableByAll).forEach(open::add);
        return open;
    }

    private Stream<Path> files() {
        MqttSettings.Tls tls = settings.tls();
        return Stream.concat(
                secrets(), Stream.of(tls.authority(), tls.certificate()).flatMap(Optional::stream));
    }

    private Stream<Path> secrets() {
        return Stream.of(settings.passwordFile(), settings.tls().key()).flatMap(Optional::stream);
    }

    private @Nullable String password() throws AccessException {
        Optional<Path> file = settings.passwordFile();
        return file.isPresent() ? firstLine(file.get()) : variable(PASSWORD).orElse(null);
    }

    /** An empty one counts as none. */
    private Optional<String> variable(String name) {
        return Optional.ofNullable(environment.get(name)).filter(value -> !value.isEmpty());
    }

    /** Without the line end that editors leave; nothing may follow it. */
    static String firstLine(Path file) throws AccessException {
        try {
            return SecretFile.line(file, "password", LONGEST_PASSWORD, "longer than MQTT allows");
        } catch (SecretException e) {
            throw new AccessException(String.valueOf(e.getMessage()), e);
        }
    }
}
