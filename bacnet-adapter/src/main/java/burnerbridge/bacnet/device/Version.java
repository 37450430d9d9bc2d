package burnerbridge.bacnet.device;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;

/** The version of the program, as the build wrote it into a file beside this class. */
final class Version {
    private Version() {}

    static String text() {
        try (InputStream file = Version.class.getResourceAsStream("version.txt")) {
            if (file == null) {
                throw new IllegalStateException("version.txt is missing beside " + Version.class.getName());
            }
            return new String(file.readAllBytes(), StandardCharsets.UTF_8).strip();
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}
