package burnerbridge.mqtt;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.outside.OutsideProgram;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

/** Authorities, certificates and keys, made by {@code openssl} when a test needs them; none is ever kept. */
public final class Certificates {
    private static final List<String> EC = List.of("-newkey", "ec", "-pkeyopt", "ec_paramgen_curve:prime256v1");

    private static final DateTimeFormatter DATE =
            DateTimeFormatter.ofPattern("uuuuMMddHHmmss'Z'", Locale.ROOT).withZone(ZoneOffset.UTC);

    private final Path folder;

    public Certificates(Path folder) {
        this.folder = folder;
    }

    public static void require() {
        OutsideProgram.require("openssl", "openssl");
    }

    /** Makes {@code NAME.pem}, of its own, and {@code NAME.key}. */
    public Path authority(String name) {
        List<String> arguments = new ArrayList<>(List.of("req", "-x509"));
        arguments.addAll(EC);
        openssl(arguments, "-nodes", "-keyout", key(name), "-out", file(name), "-subj", "/CN=" + name, "-days", "90");
        return path(name);
    }

    /** Makes {@code NAME.pem} and {@code NAME.key}, of an authority, for 127.0.0.1 or what is said. */
    public Path issue(String name, String authority, String alternativeName, int days) {
        return issue(name, authority, alternativeName, days, EC);
    }

    /** As {@link #issue}, with a key of another kind. */
    public Path issue(String name, String authority, String alternativeName, int days, List<String> kind) {
        List<String> arguments = new ArrayList<>(List.of("req", "-new"));
        arguments.addAll(kind);
        openssl(arguments, "-nodes", "-keyout", key(name), "-out", file(name + "-request"), "-subj", "/CN=" + name);
        write(name + "-extensions", "subjectAltName=" + alternativeName + "\n");
        openssl(
                List.of("x509", "-req"),
                "-in",
                file(name + "-request"),
                "-CA",
                file(authority),
                "-CAkey",
                key(authority),
                "-CAcreateserial",
                "-days",
                Integer.toString(days),
                "-extfile",
                file(name + "-extensions"),
                "-out",
                file(name));
        return path(name);
    }

    /** As {@link #issue}, for any time, which only openssl's small authority can say. */
    public Path issueBetween(String name, String authority, String alternativeName, Instant begin, Instant end) {
        List<String> request = new ArrayList<>(List.of("req", "-new"));
        request.addAll(EC);
        openssl(request, "-nodes", "-keyout", key(name), "-out", file(name + "-request"), "-subj", "/CN=" + name);
        write(name + "-index", "");
        String configuration = String.format(Locale.ROOT, """
                [ca]
                default_ca = small
                [small]
                database = %s
                new_certs_dir = %s
                default_md = sha256
                policy = any
                rand_serial = yes
                x509_extensions = extensions
                [any]
                commonName = supplied
                [extensions]
                subjectAltName = %s
                """, file(name + "-index"), folder, alternativeName);
        write(name + "-ca", configuration);
        openssl(
                List.of("ca", "-batch", "-notext"),
                "-config",
                file(name + "-ca"),
                "-cert",
                file(authority),
                "-keyfile",
                key(authority),
                "-startdate",
                DATE.format(begin),
                "-enddate",
                DATE.format(end),
                "-in",
                file(name + "-request"),
                "-out",
                file(name));
        return path(name);
    }

    public Path path(String name) {
        return folder.resolve(name + ".pem");
    }

    public Path keyPath(String name) {
        return folder.resolve(name + ".key");
    }

    /** Runs openssl; it has to end well. */
    public static void openssl(List<String> begin, String... further) {
        List<String> command = new ArrayList<>(List.of("openssl"));
        command.addAll(begin);
        command.addAll(List.of(further));
        try {
            Process process =
                    new ProcessBuilder(command).redirectErrorStream(true).start();
            String said = new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
            assertThat(process.waitFor()).as(command + ": " + said).isZero();
        } catch (IOException | InterruptedException e) {
            throw new AssertionError(e);
        }
    }

    private void write(String name, String text) {
        try {
            Files.writeString(path(name), text);
        } catch (IOException e) {
            throw new AssertionError(e);
        }
    }

    private String file(String name) {
        return path(name).toString();
    }

    private String key(String name) {
        return keyPath(name).toString();
    }
}
