package burnerbridge.config.workbook;

import burnerbridge.config.problem.Unreadable;
import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.ByteBuffer;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;
import java.util.zip.ZipEntry;
import java.util.zip.ZipException;
import java.util.zip.ZipFile;
import java.util.zip.ZipOutputStream;

/** The XML parts of an {@code .xlsx}, which is a zip file, unpacked within bounds. */
final class WorkbookParts {
    private static final long LARGEST_FILE = 16 << 20;
    private static final int LARGEST_WHOLE = 48 << 20;
    private static final int MOST_PARTS = 2000;
    private static final int OLE2 = 0xD0CF11E0;

    private final Map<String, byte[]> parts;

    private WorkbookParts(Map<String, byte[]> parts) {
        this.parts = parts;
    }

    static WorkbookParts read(Path file) throws WorkbookException {
        try {
            refuseOther(file);
            try (ZipFile zip = new ZipFile(file.toFile())) {
                return new WorkbookParts(unpacked(zip));
            }
        } catch (ZipException e) {
            throw new WorkbookException("is no .xlsx, or a broken one: " + e.getMessage(), e);
        } catch (IOException e) {
            throw new WorkbookException(Unreadable.why(e), e);
        }
    }

    private static void refuseOther(Path file) throws IOException, WorkbookException {
        if (!Files.isRegularFile(file)) {
            throw new WorkbookException("is not a file");
        }
        if (Files.size(file) > LARGEST_FILE) {
            throw new WorkbookException("is larger than " + (LARGEST_FILE >> 20) + " MiB, which no point list is");
        }
        byte[] start = new byte[4];
        try (InputStream in = Files.newInputStream(file)) {
            in.readNBytes(start, 0, start.length);
        }
        if (ByteBuffer.wrap(start).getInt() == OLE2) {
            throw new WorkbookException("is an old .xls, or locked with a password; save it as .xlsx without one");
        }
    }

    private static Map<String, byte[]> unpacked(ZipFile zip) throws IOException, WorkbookException {
        if (zip.size() > MOST_PARTS) {
            throw new WorkbookException("has more than " + MOST_PARTS + " parts (has " + zip.size() + ")");
        }
        if (zip.getEntry("xl/workbook.bin") != null || zip.getEntry("content.xml") != null) {
            throw new WorkbookException("is a workbook of another kind; save it as .xlsx");
        }
        Map<String, byte[]> parts = new LinkedHashMap<>();
        int left = LARGEST_WHOLE;
        for (ZipEntry entry : Collections.list(zip.entries())) {
            if (entry.getName().endsWith(".xml") || entry.getName().endsWith(".rels")) {
                byte[] part = unpacked(zip, entry, left);
                left -= part.length;
                parts.put(entry.getName(), part);
            }
        }
        return parts;
    }

    /** What the zip file says of its sizes is not believed. */
    private static byte[] unpacked(ZipFile zip, ZipEntry entry, int left) throws IOException, WorkbookException {
        try (InputStream in = zip.getInputStream(entry)) {
            byte[] part = in.readNBytes(left + 1);
            if (part.length > left) {
                throw new WorkbookException("unpacks to more than " + (LARGEST_WHOLE >> 20)
                        + " MiB, which no point list does; copy the list alone into a new workbook");
            }
            return part;
        }
    }

    Map<String, byte[]> all() {
        return parts;
    }

    Optional<byte[]> part(String name) {
        return Optional.ofNullable(parts.get(name));
    }

    /** The same parts, and no others, as the library wants them. */
    InputStream asZip() {
        ByteArrayOutputStream bytes = new ByteArrayOutputStream();
        try (ZipOutputStream zip = new ZipOutputStream(bytes)) {
            for (Map.Entry<String, byte[]> part : parts.entrySet()) {
                zip.putNextEntry(new ZipEntry(part.getKey()));
                zip.write(part.getValue());
                zip.closeEntry();
            }
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        return new ByteArrayInputStream(bytes.toByteArray());
    }
}
