package burnerbridge.mqtt.access;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.model.Stamp;
import burnerbridge.mqtt.Certificates;
import burnerbridge.mqtt.access.AccessCheck.Finding;
import burnerbridge.mqtt.access.AccessCheck.Setting;
import burnerbridge.site.MqttSettings;
import burnerbridge.site.MqttSettings.Tls;
import burnerbridge.site.MqttSettings.Version;
import java.io.IOException;
import java.net.URI;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.security.cert.X509Certificate;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** What is seen of the files of an encrypted connection without a broker, with those that openssl makes. */
class AccessCheckIT {
    private static final String SECRET = "s3cret word";
    /** So that a certificate that was just made holds for certain. */
    private static final Duration HOUR = Duration.ofHours(1);

    @TempDir
    Path folder;

    private Certificates certificates;
    private Path password;
    private Instant issued;

    @BeforeEach
    void make() throws IOException {
        Certificates.require();
        certificates = new Certificates(folder);
        certificates.authority("authority");
        certificates.issue("bridge", "authority", "DNS:bridge", 60);
        password = Files.writeString(folder.resolve("password"), SECRET + "\n");
        close(password);
        close(certificates.keyPath("bridge"));
        issued = Instant.now();
    }

    @Test
    void filesThatAreAsTheyShouldBeAreNotToldOf() {
        assertThat(found(Duration.ofDays(1))).isEmpty();
    }

    @Test
    void aCertificateIsToldThirtyDaysBeforeItsEndWithTheDayAndAfterItAndBeforeItsBegin() throws AccessException {
        Path bridge = certificates.path("bridge");
        String end = Lifetime.of(bridge, certificate(bridge)).end().toString();

        assertThat(found(Duration.ofDays(29))).isEmpty();
        assertThat(found(Duration.ofDays(31)))
                .singleElement()
                .satisfies(finding -> assertThat(finding.setting()).isEqualTo(Setting.CERTIFICATE))
                .satisfies(finding -> assertThat(finding.sentence())
                        .contains("the certificate of CN=bridge in " + certificates.path("bridge") + " ends on " + end)
                        .contains("in 28 days"));
        assertThat(found(Duration.ofDays(61)))
                .extracting(Finding::setting)
                .containsExactly(Setting.AUTHORITY, Setting.CERTIFICATE);
        assertThat(found(Duration.ofDays(61)).get(1).sentence()).contains("has ended on " + end);
        assertThat(found(Duration.ofDays(-1)).get(1).sentence())
                .contains("CN=bridge")
                .contains("does not hold before")
                .contains("the clock here says");
    }

    @Test
    void aClockThatIsNotBelievedSaysNothingOfTimes() {
        Instant later = issued.plus(Duration.ofDays(400));
        assertThat(AccessCheck.of(settings("authority", "bridge", "bridge"), new Stamp(0, later, false)))
                .isEmpty();
    }

    @Test
    void eachFileThatIsMissingIsToldByItselfAndApartFromOneWhoseFolderIsMissingToo() throws IOException {
        Files.delete(password);
        Files.delete(certificates.path("authority"));
        Files.delete(certificates.path("bridge"));
        Files.delete(certificates.keyPath("bridge"));

        assertThat(found(Duration.ZERO))
                .extracting(Finding::setting)
                .containsExactly(Setting.PASSWORD_FILE, Setting.AUTHORITY, Setting.CERTIFICATE, Setting.KEY);
        assertThat(found(Duration.ZERO))
                .allSatisfy(finding -> assertThat(finding.sentence()).startsWith("there is no file " + folder))
                .noneMatch(Finding::elsewhere);

        folder = folder.resolve("edge-box");
        certificates = new Certificates(folder);
        password = folder.resolve("password");
        assertThat(found(Duration.ZERO)).hasSize(4).allMatch(Finding::elsewhere);
    }

    @Test
    void aFolderInPlaceOfAFileIsSaid() throws IOException {
        Files.delete(certificates.path("authority"));
        Files.createDirectory(certificates.path("authority"));

        assertThat(found(Duration.ZERO).get(0).sentence()).contains("it is a folder");
    }

    @Test
    void aKeyOfAWrongKindIsToldWithTheWayOutAlsoWhereItsCertificateIsMissing() throws IOException {
        Certificates.openssl(
                List.of("pkcs8", "-topk8", "-passout", "pass:" + SECRET),
                "-in",
                certificates.keyPath("bridge").toString(),
                "-out",
                folder.resolve("locked.key").toString());
        Certificates.openssl(
                List.of("ec"),
                "-in",
                certificates.keyPath("bridge").toString(),
                "-out",
                folder.resolve("old.key").toString());
        close(folder.resolve("locked.key"));
        close(folder.resolve("old.key"));

        assertThat(sentences("authority", "bridge", "locked"))
                .singleElement()
                .asString()
                .contains("ENCRYPTED PRIVATE KEY")
                .contains("openssl pkcs8 -topk8 -nocrypt");
        assertThat(sentences("authority", "bridge", "old"))
                .singleElement()
                .asString()
                .contains("EC PRIVATE KEY");
        assertThat(sentences("authority", "nothing", "old")).hasSize(2);
    }

    @Test
    void theKeyOfAnotherCertificateAndWhatIsNoPemAreTold() throws IOException {
        certificates.issue("other", "authority", "DNS:other", 60);
        close(certificates.keyPath("other"));
        Files.write(folder.resolve("binary.pem"), new byte[] {0x30, (byte) 0x82, 1, 1, 2});

        assertThat(sentences("authority", "bridge", "other"))
                .singleElement()
                .asString()
                .contains("other.key is not the key of the certificate");
        assertThat(sentences("binary", "bridge", "bridge"))
                .singleElement()
                .asString()
                .contains("binary.pem has no certificate in PEM");
    }

    @Test
    void aCertificateThatIsForServersOnlyIsTold() {
        certificates.issue("server", "authority", "DNS:bridge\nextendedKeyUsage=serverAuth", 60);
        certificates.issue("both", "authority", "DNS:bridge\nextendedKeyUsage=serverAuth,clientAuth", 60);
        close(certificates.keyPath("server"));
        close(certificates.keyPath("both"));

        assertThat(sentences("authority", "server", "server"))
                .singleElement()
                .asString()
                .contains("is not for clients");
        assertThat(sentences("authority", "both", "both")).isEmpty();
    }

    @Test
    void secretsThatEveryUserCanReadAreToldAndNoSecretIsEverShown() throws IOException {
        for (Path secret : List.of(password, certificates.keyPath("bridge"))) {
            Files.setPosixFilePermissions(secret, PosixFilePermissions.fromString("rw-r--r--"));
        }
        Files.writeString(password, SECRET + "\n" + SECRET + "\n");

        assertThat(sentences("authority", "bridge", "bridge"))
                .hasSize(3)
                .noneMatch(sentence -> sentence.contains("s3cret"))
                .anyMatch(sentence -> sentence.contains("must hold one line"))
                .anyMatch(sentence -> sentence.contains("every user of this machine can read " + password));
    }

    private static X509Certificate certificate(Path file) throws AccessException {
        return PemFile.read(file).certificates().get(0);
    }

    private List<Finding> found(Duration later) {
        return AccessCheck.of(
                settings("authority", "bridge", "bridge"),
                new Stamp(0, issued.plus(HOUR).plus(later), true));
    }

    private List<String> sentences(String authority, String certificate, String key) {
        return AccessCheck.of(settings(authority, certificate, key), new Stamp(0, issued.plus(HOUR), true)).stream()
                .map(Finding::sentence)
                .toList();
    }

    private MqttSettings settings(String authority, String certificate, String key) {
        return new MqttSettings(
                List.of(URI.create("tls://127.0.0.1:1")),
                "plant",
                Version.V5,
                Optional.empty(),
                Optional.of("bridge"),
                Optional.of(password),
                new Tls(
                        Optional.of(certificates.path(authority)),
                        Optional.of(certificates.path(certificate)),
                        Optional.of(certificates.keyPath(key))));
    }

    private static void close(Path secret) {
        try {
            Files.setPosixFilePermissions(secret, PosixFilePermissions.fromString("rw-------"));
        } catch (IOException e) {
            throw new AssertionError(e);
        }
    }
}
