package burnerbridge.mqtt;

import burnerbridge.mqtt.documents.MqttDocuments;
import burnerbridge.site.MqttSettings;
import burnerbridge.site.MqttSettings.Tls;
import burnerbridge.site.MqttSettings.Version;
import burnerbridge.site.Site;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.net.URI;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.util.List;
import java.util.Objects;
import java.util.Optional;

/** Mosquitto behind TLS with client certificates, passwords, and the access list that the bridge generates. */
abstract class MosquittoContract extends BrokerContract {
    private static final String PASSWORD = "correct horse # battery";
    private final Version version;

    MosquittoContract(Version version) {
        this.version = version;
    }

    @Override
    RunningBroker startBroker(Site of) {
        Certificates.require();
        Certificates certificates = new Certificates(folder);
        certificates.authority("authority");
        certificates.issue("broker", "authority", "IP:127.0.0.1", 60);
        certificates.issue("bridge", "authority", "DNS:bridge", 60);
        write("password", PASSWORD + "\n");
        Path passwords = write("passwords", "");
        for (String user : List.of("bridge", "reader", "other")) {
            Mosquitto.addPassword(passwords, user, PASSWORD);
        }
        String rights = MqttDocuments.of(settings(1), of, "test").get(MqttDocuments.RIGHTS);
        Path list = write("rights", Objects.requireNonNull(rights) + "\nuser other\ntopic readwrite #\n");
        return Mosquitto.start(
                folder,
                Mosquitto.freePort(),
                "cafile " + certificates.path("authority"),
                "certfile " + certificates.path("broker"),
                "keyfile " + certificates.keyPath("broker"),
                "require_certificate true",
                "password_file " + passwords,
                "acl_file " + list);
    }

    @Override
    MqttSettings settings(int port) {
        Certificates certificates = new Certificates(folder);
        return new MqttSettings(
                List.of(URI.create("tls://127.0.0.1:" + port)),
                "plant/heat",
                version,
                Optional.empty(),
                Optional.of("bridge"),
                Optional.of(folder.resolve("password")),
                new Tls(
                        Optional.of(certificates.path("authority")),
                        Optional.of(certificates.path("bridge")),
                        Optional.of(certificates.keyPath("bridge"))));
    }

    @Override
    List<String> readersOptions() {
        return othersOptions("reader");
    }

    @Override
    List<String> othersOptions(String user) {
        return List.of(
                "-u",
                user,
                "-P",
                PASSWORD,
                "--cafile",
                folder.resolve("authority.pem").toString(),
                "--cert",
                folder.resolve("bridge.pem").toString(),
                "--key",
                folder.resolve("bridge.key").toString());
    }

    @Override
    boolean messagesExpire() {
        return version == Version.V5;
    }

    private Path write(String name, String text) {
        try {
            Path file = Files.writeString(folder.resolve(name), text);
            return Files.setPosixFilePermissions(file, PosixFilePermissions.fromString("rw-------"));
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}
