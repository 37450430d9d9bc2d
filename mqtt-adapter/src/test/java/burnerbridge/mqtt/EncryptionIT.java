package burnerbridge.mqtt;

import static org.assertj.core.api.Assertions.assertThat;
import static org.awaitility.Awaitility.await;

import burnerbridge.site.MqttSettings;
import burnerbridge.site.MqttSettings.Tls;
import burnerbridge.site.MqttSettings.Version;
import burnerbridge.site.Site;
import burnerbridge.table.ValueTable;
import ch.qos.logback.classic.Logger;
import ch.qos.logback.classic.spi.ILoggingEvent;
import ch.qos.logback.core.read.ListAppender;
import java.io.IOException;
import java.net.URI;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayDeque;
import java.util.Deque;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.slf4j.LoggerFactory;

/** Encrypted connections to mosquitto that fail, and that outlive their certificates. */
class EncryptionIT {
    private static final Duration LONG = Duration.ofSeconds(30);
    private static final String PASSWORD = "first word";

    private final ShiftedClock clock = new ShiftedClock();
    private final Site site = TestPlant.siteOf(1);
    private final ValueTable table = TestPlant.table(site);
    private final Deque<AutoCloseable> opened = new ArrayDeque<>();
    private final ListAppender<ILoggingEvent> log = new ListAppender<>();

    @TempDir
    Path folder;

    private Certificates certificates;
    private Version version = Version.V5;

    @BeforeEach
    void make() throws IOException {
        Mosquitto.require();
        Certificates.require();
        certificates = new Certificates(folder);
        certificates.authority("authority");
        certificates.issue("broker", "authority", "IP:127.0.0.1", 60);
        certificates.issue("bridge", "authority", "DNS:bridge", 60);
        Files.writeString(folder.resolve("password"), PASSWORD);
        Mosquitto.addPassword(Files.writeString(folder.resolve("passwords"), ""), "bridge", PASSWORD);
        log.start();
        ((Logger) LoggerFactory.getLogger("burnerbridge.mqtt")).addAppender(log);
    }

    @AfterEach
    void closeAll() throws Exception {
        ((Logger) LoggerFactory.getLogger("burnerbridge.mqtt")).detachAppender(log);
        for (AutoCloseable closeable : opened) {
            closeable.close();
        }
    }

    @ParameterizedTest
    @EnumSource(Version.class)
    void eachFailureIsSaidInWordsThatNameWhatToLookAt(Version spoken) throws IOException {
        version = spoken;
        certificates.authority("stranger");
        certificates.issue("elsewhere", "authority", "DNS:elsewhere.example", 60);
        Mosquitto broker = startBroker("broker");
        Mosquitto other = startBroker("elsewhere");
        Mosquitto plain = open(Mosquitto.start(folder, Mosquitto.freePort()));

        assertThat(failure(broker.port(), "stranger", "bridge", PASSWORD))
                .contains("is not from an authority that is trusted");
        assertThat(failure(other.port(), "authority", "bridge", PASSWORD)).contains("is for another host");
        assertThat(failure(plain.port(), "authority", "bridge", PASSWORD))
                .containsAnyOf("does not speak TLS", "or that is not encrypted");
        assertThat(failure(broker.port(), "authority", "bridge", "another word"))
                .contains("not authorized");
        assertThat(failure(broker.port(), "authority", "missing", PASSWORD)).contains("missing.pem cannot be read");
        assertThat(failure(broker.port(), "authority", "", PASSWORD))
                .containsAnyOf("because of our certificate", "wants a certificate of ours");
        assertThat(log.list).noneMatch(e -> e.getFormattedMessage().contains(PASSWORD));
    }

    /** The box whose clock is wrong sees the same as one that meets such a certificate. */
    @ParameterizedTest
    @EnumSource(Version.class)
    void aCertificateThatHasEndedOrNotBegunIsSaidWhoseEverItIs(Version spoken) throws IOException {
        version = spoken;
        Instant now = Instant.now();
        issueBetween("ended", now.minus(Duration.ofDays(40)), now.minus(Duration.ofDays(10)));
        issueBetween("early", now.plus(Duration.ofDays(10)), now.plus(Duration.ofDays(80)));
        Mosquitto ended = startBroker("ended");
        Mosquitto early = startBroker("early");
        Mosquitto broker = startBroker("broker");

        assertThat(failure(ended.port(), "authority", "bridge", PASSWORD))
                .contains("the broker's certificate has ended");
        assertThat(failure(early.port(), "authority", "bridge", PASSWORD))
                .contains("the broker's certificate does not hold yet; is the clock of this machine right?");
        assertThat(failure(broker.port(), "authority", "ended", PASSWORD))
                .containsAnyOf("because of our certificate", "wants a certificate of ours");
        assertThat(logged("the certificate of CN=ended in " + certificates.path("ended") + " has ended on "))
                .isTrue();
        assertThat(failure(broker.port(), "authority", "early", PASSWORD))
                .containsAnyOf("because of our certificate", "wants a certificate of ours");
        assertThat(logged("the certificate of CN=early in " + certificates.path("early") + " does not hold before "))
                .isTrue();
    }

    private void issueBetween(String name, Instant begin, Instant end) {
        certificates.issueBetween(name, "authority", "IP:127.0.0.1", begin, end);
    }

    @Test
    void aBrokerWhoseAuthorityWasReplacedIsTrustedAgainWhenTheFileIsReplaced() throws IOException {
        Mosquitto broker = startBroker("broker");
        MqttAdapter adapter = startAdapter(settings(broker.port(), "authority", "bridge"));
        await().atMost(LONG).until(() -> adapter.state().orElseThrow().connected());

        broker.kill();
        certificates.authority("authority");
        certificates.issue("broker", "authority", "IP:127.0.0.1", 60);
        certificates.issue("bridge", "authority", "DNS:bridge", 60);
        broker.startAgain();

        await().atMost(LONG).until(() -> adapter.state().orElseThrow().connected());
        assertThat(log.list.stream().filter(e -> e.getFormattedMessage().contains("connected as")))
                .hasSize(2);
    }

    @Test
    void aRenewedCertificateIsTakenWithOneNewConnectionAndADamagedOneChangesNothing() throws IOException {
        Mosquitto broker = startBroker("broker");
        MqttAdapter adapter = startAdapter(settings(broker.port(), "authority", "bridge"));
        await().atMost(LONG).until(() -> adapter.state().orElseThrow().connected());

        certificates.issue("renewed", "authority", "DNS:bridge", 20);
        Files.copy(certificates.path("renewed"), certificates.path("bridge"), StandardCopyOption.REPLACE_EXISTING);
        clock.forward(Duration.ofSeconds(61));
        await().atMost(LONG).until(() -> logged("files changed and cannot be used"));
        assertThat(adapter.state().orElseThrow().connected()).isTrue();

        Files.copy(
                certificates.keyPath("renewed"), certificates.keyPath("bridge"), StandardCopyOption.REPLACE_EXISTING);
        clock.forward(Duration.ofSeconds(61));
        await().atMost(LONG).until(() -> logged("to connect with the renewed certificates"));
        await().atMost(LONG).until(() -> adapter.state().orElseThrow().connected());
        assertThat(logged("CN=renewed in " + certificates.path("bridge") + " ends on"))
                .isTrue();
        assertThat(Told.sentences(adapter))
                .first()
                .isEqualTo("notice site mqtt: every user of this machine can read " + folder.resolve("password")
                        + "; look at its rights; chmod 600 keeps it");
        assertThat(Told.sentences(adapter))
                .last()
                .asString()
                .startsWith("notice site mqtt: the certificate of CN=renewed in " + certificates.path("bridge")
                        + " ends on")
                .endsWith("look at the files of mqtt.tls in site.yaml; new ones count within a minute");
        assertThat(Told.figures(adapter).get("burner_bridge_mqtt_certificate_end_timestamp_seconds[]"))
                .isBetween((double) Instant.now().plus(Duration.ofDays(18)).getEpochSecond(), (double)
                        Instant.now().plus(Duration.ofDays(21)).getEpochSecond());

        clock.forward(Duration.ofSeconds(122));
        await().pollDelay(Duration.ofSeconds(1)).atMost(LONG).until(() -> true);
        assertThat(log.list.stream().filter(e -> e.getFormattedMessage().contains("connected as")))
                .hasSize(2);
    }

    /** What the adapter says when it cannot connect. */
    private String failure(int port, String authority, String own, String password) throws IOException {
        Files.writeString(folder.resolve("password"), password);
        try (MqttAdapter adapter = new MqttAdapter(settings(port, authority, own), site, table, clock)) {
            adapter.start();
            await().atMost(LONG)
                    .until(() -> adapter.state().orElseThrow().detail().contains("cannot connect")
                            || adapter.state().orElseThrow().detail().contains("connection lost"));
            return adapter.state().orElseThrow().detail();
        }
    }

    private boolean logged(String text) {
        return List.copyOf(log.list).stream()
                .anyMatch(e -> e.getFormattedMessage().contains(text));
    }

    private Mosquitto startBroker(String certificate) {
        return open(Mosquitto.start(
                folder,
                Mosquitto.freePort(),
                "cafile " + certificates.path("authority"),
                "certfile " + certificates.path(certificate),
                "keyfile " + certificates.keyPath(certificate),
                "require_certificate true",
                "password_file " + folder.resolve("passwords")));
    }

    private MqttAdapter startAdapter(MqttSettings settings) {
        MqttAdapter adapter = open(new MqttAdapter(settings, site, table, clock));
        adapter.start();
        return adapter;
    }

    private MqttSettings settings(int port, String authority, String own) {
        Tls tls = own.isEmpty()
                ? new Tls(Optional.of(certificates.path(authority)), Optional.empty(), Optional.empty())
                : new Tls(
                        Optional.of(certificates.path(authority)),
                        Optional.of(certificates.path(own)),
                        Optional.of(certificates.keyPath(own)));
        return new MqttSettings(
                List.of(URI.create("tls://127.0.0.1:" + port)),
                "plant/heat",
                version,
                Optional.empty(),
                Optional.of("bridge"),
                Optional.of(folder.resolve("password")),
                tls);
    }

    private <T extends AutoCloseable> T open(T closeable) {
        opened.push(closeable);
        return closeable;
    }
}
