package burnerbridge.write.store;

import burnerbridge.control.JsonLine;
import java.io.IOException;
import java.math.BigDecimal;
import java.nio.ByteBuffer;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Function;

/**
 * A small file that is replaced as a whole: lines of JSON, and as the last one the hash of all before it, so that what
 * was damaged is never taken for what was written. A hash without a key: it tells damage, not intent.
 */
public final class SealedFile {
    private static final String HASH = "{\"sha256\":\"";
    private static final String END = "\"}\n";
    private static final int HASH_LINE = HASH.length() + 64 + END.length();

    private final Disk disk;
    private final String name;
    private final int version;

    /**
     * What such a file holds.
     *
     * @param head its first line
     * @param rows its other lines
     */
    public record Content(Fields head, List<Fields> rows) {}

    /** @param version of what its lines mean; a file with another one is refused */
    public SealedFile(Disk disk, String name, int version) {
        this.disk = disk;
        this.name = name;
        this.version = version;
    }

    public String name() {
        return name;
    }

    /**
     * What a reader makes of the file; empty where there is none.
     *
     * @param reader throws an {@link IllegalArgumentException} where something is not as it was written
     * @throws DamagedFileException where it is not as it was written
     */
    public <T> Optional<T> read(Function<Content, T> reader) throws IOException {
        if (!disk.holds(name)) {
            return Optional.empty();
        }
        byte[] bytes = disk.read(name);
        try {
            return Optional.of(reader.apply(content(bytes)));
        } catch (IllegalArgumentException e) {
            throw new DamagedFileException("the file " + name + " is damaged: " + e.getMessage(), e);
        }
    }

    private Content content(byte[] bytes) {
        List<String> lines = sealed(bytes).lines().toList();
        Fields head = new Fields(JsonLine.parse(lines.get(0)));
        if (!head.text("file").equals(name)) {
            throw new IllegalArgumentException("it is a copy of " + head.text("file"));
        }
        if (head.whole("version") != version) {
            throw new IllegalArgumentException("it is of version " + head.whole("version")
                    + ", and this program knows version " + version + " alone");
        }
        return new Content(
                head,
                lines.subList(1, lines.size()).stream()
                        .map(line -> new Fields(JsonLine.parse(line)))
                        .toList());
    }

    /** All lines but the last, which must be their hash. */
    private static String sealed(byte[] bytes) {
        int length = bytes.length - HASH_LINE;
        if (length < 1) {
            throw new IllegalArgumentException("it is cut off (" + bytes.length + " bytes)");
        }
        byte[] text = Arrays.copyOf(bytes, length);
        if (!Arrays.equals(hashLine(text), Arrays.copyOfRange(bytes, length, bytes.length))) {
            throw new IllegalArgumentException("its text does not match its hash");
        }
        try {
            return StandardCharsets.UTF_8
                    .newDecoder()
                    .decode(ByteBuffer.wrap(text))
                    .toString();
        } catch (CharacterCodingException e) {
            throw new IllegalArgumentException("it is no text in UTF-8", e);
        }
    }

    /**
     * Replaces all of it; when it returns, that is there for good.
     *
     * @param head members of the first line besides the file's name and version
     * @param rows made of what {@link JsonLine#value} writes
     */
    public void write(Map<String, ?> head, List<? extends Map<String, ?>> rows) throws IOException {
        Map<String, Object> first = new LinkedHashMap<>();
        first.put("file", name);
        first.put("version", BigDecimal.valueOf(version));
        first.putAll(head);
        StringBuilder lines = new StringBuilder(JsonLine.value(first)).append('\n');
        rows.forEach(row -> lines.append(JsonLine.value(row)).append('\n'));
        byte[] text = lines.toString().getBytes(StandardCharsets.UTF_8);
        byte[] hash = hashLine(text);
        byte[] whole = Arrays.copyOf(text, text.length + hash.length);
        System.arraycopy(hash, 0, whole, text.length, hash.length);
        disk.replace(name, whole);
    }

    private static byte[] hashLine(byte[] text) {
        return (HASH + Sha256.hex(text) + END).getBytes(StandardCharsets.US_ASCII);
    }
}
