package burnerbridge.mqtt.access;

import burnerbridge.model.Stamp;
import burnerbridge.secret.FileMark;
import burnerbridge.site.MqttSettings;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.cert.CertificateParsingException;
import java.security.cert.X509Certificate;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/**
 * What is wrong with the files that open a broker's door, as far as it can be seen on this machine and
 * without a connection. It shows nothing of a secret.
 */
public final class AccessCheck {
    /** To present itself as a client, or for any purpose (RFC 5280, 4.2.1.12). */
    private static final List<String> FOR_CLIENTS = List.of("1.3.6.1.5.5.7.3.2", "2.5.29.37.0");

    private final MqttSettings settings;
    private final Stamp now;
    private final List<Finding> findings = new ArrayList<>();

    /** A setting that names a file. */
    public enum Setting {
        PASSWORD_FILE("mqtt.password-file"),
        AUTHORITY("mqtt.tls.ca"),
        CERTIFICATE("mqtt.tls.certificate"),
        KEY("mqtt.tls.key");

        private final String key;

        Setting(String key) {
            this.key = key;
        }

        /** As in {@code site.yaml}. */
        public String key() {
            return key;
        }
    }

    /**
     * Something to look at.
     *
     * @param elsewhere whether neither the file nor its folder is here, as on a machine that only writes the site
     * @param sentence names the file
     */
    public record Finding(Setting setting, boolean elsewhere, String sentence) {}

    private interface Look {
        void at(Path file) throws AccessException;
    }

    private AccessCheck(MqttSettings settings, Stamp now) {
        this.settings = settings;
        this.now = now;
    }

    /** @param now of certificates; their times are not looked at where this clock is not believed */
    public static List<Finding> of(MqttSettings settings, Stamp now) {
        AccessCheck check = new AccessCheck(settings, now);
        check.run();
        return List.copyOf(check.findings);
    }

    private void run() {
        settings.passwordFile().ifPresent(file -> {
            look(Setting.PASSWORD_FILE, file, AccessFiles::firstLine);
            tellOpen(Setting.PASSWORD_FILE, file);
        });
        MqttSettings.Tls tls = settings.tls();
        tls.authority()
                .ifPresent(named -> look(
                        Setting.AUTHORITY,
                        named,
                        file -> tellLifetimes(
                                Setting.AUTHORITY, file, PemFile.read(file).certificates())));
        List<X509Certificate> own = new ArrayList<>();
        tls.certificate()
                .ifPresent(named -> look(Setting.CERTIFICATE, named, file -> {
                    own.addAll(PemFile.read(file).certificates());
                    tellLifetimes(Setting.CERTIFICATE, file, own);
                    tellPurpose(file, own.get(0));
                }));
        tls.key().ifPresent(named -> {
            look(Setting.KEY, named, file -> key(file, own.stream().findFirst()));
            tellOpen(Setting.KEY, named);
        });
    }

    private void look(Setting setting, Path file, Look look) {
        if (Files.notExists(file)) {
            boolean elsewhere = Files.notExists(file.toAbsolutePath().getParent());
            String what = "there is no file " + file + " here";
            findings.add(new Finding(setting, elsewhere, what + "; it has to be where the bridge runs"));
            return;
        }
        try {
            look.at(file);
        } catch (AccessException e) {
            tell(setting, String.valueOf(e.getMessage()));
        }
    }

    private static void key(Path file, Optional<X509Certificate> certificate) throws AccessException {
        PemFile pem = PemFile.read(file);
        if (certificate.isPresent()) {
            pem.key(certificate.get().getPublicKey());
        } else {
            pem.unencryptedKey();
        }
    }

    private void tellLifetimes(Setting setting, Path file, List<X509Certificate> certificates) {
        if (now.believed()) {
            certificates.stream()
                    .map(certificate -> Lifetime.of(file, certificate))
                    .flatMap(lifetime -> lifetime.trouble(now.wall()).stream())
                    .forEach(trouble -> tell(setting, trouble.sentence()));
        }
    }

    private void tellPurpose(Path file, X509Certificate own) {
        try {
            List<String> purposes = own.getExtendedKeyUsage();
            if (purposes != null && purposes.stream().noneMatch(FOR_CLIENTS::contains)) {
                tell(
                        Setting.CERTIFICATE,
                        "the certificate in " + file + " is not for clients (its extended key usage lacks clientAuth),"
                                + " and a broker that asks for one refuses it");
            }
        } catch (CertificateParsingException e) {
            tell(Setting.CERTIFICATE, "the certificate in " + file + " has an extended key usage that cannot be read");
        }
    }

    private void tellOpen(Setting setting, Path file) {
        if (FileMark.isReadableByAll(file)) {
            tell(setting, "every user of this machine can read " + file + "; chmod 600 keeps it");
        }
    }

    private void tell(Setting setting, String sentence) {
        findings.add(new Finding(setting, false, sentence));
    }
}
