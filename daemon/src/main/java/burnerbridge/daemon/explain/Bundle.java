package burnerbridge.daemon.explain;

import java.io.IOException;
import java.nio.channels.Channels;
import java.nio.charset.StandardCharsets;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.nio.file.attribute.PosixFilePermissions;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Set;
import java.util.zip.ZipEntry;
import java.util.zip.ZipOutputStream;

/** Files for whoever helps from afar, in one ZIP archive without secrets. */
public final class Bundle {
    private final Secrets secrets;
    private final Map<String, String> texts = new LinkedHashMap<>();

    public Bundle(Secrets secrets) {
        this.secrets = secrets;
    }

    /** Adds a text under a name, without the secrets that are in it. */
    public void add(String name, String text) {
        texts.put(name, secrets.leftOutOf(text));
    }

    /** The names so far. */
    public Set<String> names() {
        return texts.keySet();
    }

    /**
     * Writes all of it, readable by this user alone.
     *
     * @throws FileAlreadyExistsException where there is a file of the name; it is left as it is
     */
    public void write(Path file) throws IOException {
        try (var channel = Files.newByteChannel(
                        file,
                        Set.of(StandardOpenOption.CREATE_NEW, StandardOpenOption.WRITE),
                        PosixFilePermissions.asFileAttribute(PosixFilePermissions.fromString("rw-------")));
                ZipOutputStream zip = new ZipOutputStream(Channels.newOutputStream(channel), StandardCharsets.UTF_8)) {
            for (Map.Entry<String, String> text : texts.entrySet()) {
                zip.putNextEntry(new ZipEntry(text.getKey()));
                zip.write(text.getValue().getBytes(StandardCharsets.UTF_8));
                zip.closeEntry();
            }
        }
    }
}
