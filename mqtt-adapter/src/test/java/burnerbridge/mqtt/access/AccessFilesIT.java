package burnerbridge.mqtt.access;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import burnerbridge.mqtt.Certificates;
import burnerbridge.mqtt.broker.Access;
import burnerbridge.site.MqttSettings;
import burnerbridge.site.MqttSettings.Tls;
import burnerbridge.site.MqttSettings.Version;
import java.io.IOException;
import java.net.URI;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.FileTime;
import java.nio.file.attribute.PosixFilePermissions;
import java.time.Instant;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** Keys and certificates as openssl makes them. */
class AccessFilesIT {
    private static final String NONE = "IP:127.0.0.1";

    @TempDir
    Path folder;

    private Certificates certificates;

    @BeforeEach
    void authority() {
        Certificates.require();
        certificates = new Certificates(folder);
        certificates.authority("authority");
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "-newkey rsa:2048",
                "-newkey ec -pkeyopt ec_paramgen_curve:prime256v1",
                "-newkey ec -pkeyopt ec_paramgen_curve:secp384r1",
                "-newkey ed25519"
            })
    void aKeyOfEveryUsualKindInPkcs8IsTaken(String kind) throws AccessException {
        certificates.issue("bridge", "authority", NONE, 60, List.of(kind.split(" ")));

        AccessFiles files = files("bridge", "bridge");
        files.read();

        assertThat(files.lifetimes()).hasSize(2);
    }

    /** What the message says must be a way out: its command is run here. */
    @ParameterizedTest
    @CsvSource({"rsa:2048, BEGIN RSA PRIVATE KEY", "ec, BEGIN EC PRIVATE KEY"})
    void anOlderFormOfKeyIsNamedAndTheCommandThatConvertsItWorks(String kind, String label) throws Exception {
        certificates.issue(
                "bridge",
                "authority",
                NONE,
                60,
                kind.equals("ec")
                        ? List.of("-newkey", "ec", "-pkeyopt", "ec_paramgen_curve:prime256v1")
                        : List.of("-newkey", kind));
        Path old = folder.resolve("old.key");
        Certificates.openssl(
                List.of(kind.equals("ec") ? "ec" : "rsa"),
                "-in",
                certificates.keyPath("bridge").toString(),
                "-out",
                old.toString());
        if (!Files.readString(old).contains(label)) {
            Certificates.openssl(
                    List.of("rsa", "-traditional"),
                    "-in",
                    certificates.keyPath("bridge").toString(),
                    "-out",
                    old.toString());
        }
        assertThat(Files.readString(old)).contains(label);

        assertThatThrownBy(() -> files("bridge", "old").read())
                .hasMessageContaining(label.substring(6))
                .hasMessageContaining("openssl pkcs8 -topk8 -nocrypt -in OLD -out NEW");

        Certificates.openssl(
                List.of("pkcs8", "-topk8", "-nocrypt"),
                "-in",
                old.toString(),
                "-out",
                folder.resolve("new.key").toString());
        files("bridge", "new").read();
    }

    @Test
    void anEncryptedKeyIsNamedAndTheSameCommandDecryptsIt() throws AccessException {
        certificates.issue("bridge", "authority", NONE, 60);
        Certificates.openssl(
                List.of("pkcs8", "-topk8", "-passout", "pass:secret"),
                "-in",
                certificates.keyPath("bridge").toString(),
                "-out",
                folder.resolve("locked.key").toString());

        assertThatThrownBy(() -> files("bridge", "locked").read()).hasMessageContaining("ENCRYPTED PRIVATE KEY");

        Certificates.openssl(
                List.of("pkcs8", "-topk8", "-nocrypt", "-passin", "pass:secret"),
                "-in",
                folder.resolve("locked.key").toString(),
                "-out",
                folder.resolve("open.key").toString());
        files("bridge", "open").read();
    }

    @Test
    void theKeyOfAnotherCertificateIsSaid() {
        certificates.issue("bridge", "authority", NONE, 60);
        certificates.issue("other", "authority", NONE, 60);
        certificates.issue("rsa", "authority", NONE, 60, List.of("-newkey", "rsa:2048"));

        assertThatThrownBy(() -> files("bridge", "other").read())
                .hasMessageContaining("not the key of the certificate");
        assertThatThrownBy(() -> files("bridge", "rsa").read()).hasMessageContaining("of the kind EC");
    }

    @Test
    void whatIsNoCertificateIsSaidWithTheCommandThatMakesOne() throws IOException {
        certificates.issue("bridge", "authority", NONE, 60);
        Files.write(folder.resolve("authority.pem"), new byte[] {0x30, (byte) 0x82, 1, 1, 2});
        assertThatThrownBy(() -> files("bridge", "bridge").read())
                .hasMessageContaining("authority.pem has no certificate in PEM")
                .hasMessageContaining("openssl x509 -inform der");

        Files.writeString(
                folder.resolve("authority.pem"), "-----BEGIN CERTIFICATE-----\nAAAA\n-----END CERTIFICATE-----\n");
        assertThatThrownBy(() -> files("bridge", "bridge").read()).hasMessageContaining("cannot be read");

        Files.delete(folder.resolve("authority.pem"));
        assertThatThrownBy(() -> files("bridge", "bridge").read()).hasMessageContaining("there is no such file");
    }

    @Test
    void aChangedFileIsNoticedOnceItIsReadItIsOld() throws Exception {
        certificates.issue("bridge", "authority", NONE, 60);
        AccessFiles files = files("bridge", "bridge");
        files.read();
        assertThat(files.haveChanged()).isFalse();

        certificates.issue("bridge", "authority", NONE, 61);
        Files.setLastModifiedTime(certificates.path("bridge"), FileTime.from(Instant.parse("2026-01-01T00:00:00Z")));
        assertThat(files.haveChanged()).isTrue();
        files.read();
        assertThat(files.haveChanged()).isFalse();

        Files.delete(certificates.path("authority"));
        assertThat(files.haveChanged()).isTrue();
    }

    @Test
    void userAndPasswordComeFromTheSettingsOrTheEnvironmentAndAreNeverShown() throws Exception {
        Path password = Files.writeString(folder.resolve("password"), "s3cret word\r\n");
        Map<String, String> environment =
                Map.of("BURNER_BRIDGE_MQTT_USER", "from-there", "BURNER_BRIDGE_MQTT_PASSWORD", "s3cret");

        Access fromFile = new AccessFiles(settings(Optional.of("bridge"), Optional.of(password)), environment).read();
        Access fromEnvironment = new AccessFiles(settings(Optional.empty(), Optional.empty()), environment).read();
        Access none = new AccessFiles(settings(Optional.empty(), Optional.empty()), Map.of()).read();

        assertThat(List.of(fromFile, fromEnvironment))
                .allSatisfy(access -> assertThat(access.toString()).isEqualTo("a user with a password"));
        assertThat(none.toString()).isEqualTo("nobody");
        assertThatThrownBy(() -> new AccessFiles(settings(Optional.empty(), Optional.of(password)), Map.of()).read())
                .hasMessageContaining("BURNER_BRIDGE_MQTT_USER")
                .hasMessageNotContaining("s3cret");
    }

    @ParameterizedTest
    @ValueSource(strings = {"", "\n", "one\ntwo\n"})
    void aPasswordFileThatIsNotOneLineIsRefusedWithoutShowingIt(String text) throws IOException {
        Path password = Files.writeString(folder.resolve("password"), text);
        AccessFiles files = new AccessFiles(settings(Optional.of("bridge"), Optional.of(password)), Map.of());

        assertThatThrownBy(files::read).hasMessageContaining("one line").hasMessageNotContaining("two");
    }

    @Test
    void aSecretThatEveryUserCanReadIsNamed() throws IOException {
        Path password = Files.writeString(folder.resolve("password"), "word");
        AccessFiles files = new AccessFiles(settings(Optional.of("bridge"), Optional.of(password)), Map.of());

        Files.setPosixFilePermissions(password, PosixFilePermissions.fromString("rw-r--r--"));
        assertThat(files.openSecrets()).containsExactly(password);
        Files.setPosixFilePermissions(password, PosixFilePermissions.fromString("rw-------"));
        assertThat(files.openSecrets()).isEmpty();
    }

    private AccessFiles files(String certificate, String key) {
        Tls tls = new Tls(
                Optional.of(certificates.path("authority")),
                Optional.of(certificates.path(certificate)),
                Optional.of(certificates.keyPath(key)));
        return new AccessFiles(
                new MqttSettings(
                        List.of(URI.create("tls://127.0.0.1:1")),
                        "plant",
                        Version.V5,
                        Optional.empty(),
                        Optional.empty(),
                        Optional.empty(),
                        tls),
                Map.of());
    }

    private static MqttSettings settings(Optional<String> user, Optional<Path> password) {
        return new MqttSettings(
                List.of(URI.create("tls://127.0.0.1:1")),
                "plant",
                Version.V5,
                Optional.empty(),
                user,
                password,
                Tls.NONE);
    }
}
