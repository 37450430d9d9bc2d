package burnerbridge.config.binding;

import burnerbridge.config.csv.CsvFile;
import burnerbridge.config.csv.CsvLine;
import burnerbridge.config.csv.CsvTable.Cell;
import burnerbridge.config.meaning.StateNumbersCell;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/**
 * Writes {@code bindings.csv} with as little change as can be: rows stay in their order, a row that did not
 * change stays to the letter, notes and the file's separator, line ends and encoding stay, and new rows come
 * last.
 */
final class BindingsText {
    private final Optional<CsvFile> file;
    private final Map<Integer, BindingRow> before = new HashMap<>();
    private final char separator;
    private final String lineEnd;

    BindingsText(BindingsFile.Content content) {
        this.file = content.file();
        this.separator = file.map(CsvFile::separator).orElse(',');
        this.lineEnd = file.map(f -> f.text().lineEnd()).orElse("\n");
        content.rows().forEach(row -> before.put(row.place().line(), row));
    }

    /** The file with these rows; those that it had already are known by their lines. */
    String with(List<BindingRow> rows) {
        List<BindingRow> changed = rows.stream()
                .filter(row -> !row.equals(before.get(row.place().line())))
                .toList();
        List<String> header = header(changed);
        StringBuilder text = new StringBuilder(file.map(CsvFile::preamble).orElse(""));
        appendHeader(text, header);
        Map<Integer, BindingRow> byLine = new HashMap<>();
        changed.forEach(row -> byLine.put(row.place().line(), row));
        List<CsvFile.Row> old = file.map(CsvFile::rows).orElse(List.of());
        for (int i = 1; i < old.size(); i++) {
            BindingRow row = byLine.get(old.get(i).cells().get(0).place().line());
            text.append(
                    row == null
                            ? terminated(textOf(i))
                            : line(header, old.get(i).cells(), row));
        }
        changed.stream()
                .filter(row -> row.place().line() == 0)
                .forEach(row -> text.append(line(header, List.of(), row)));
        return text.toString();
    }

    private String textOf(int row) {
        return file.orElseThrow().textOf(row);
    }

    /** The file's columns, and those that it lacks and a changed row needs; for a new file all. */
    private List<String> header(List<BindingRow> changed) {
        if (file.isEmpty()) {
            return BindingsFile.COLUMNS;
        }
        List<String> header = new ArrayList<>(
                file.get().rows().get(0).cells().stream().map(Cell::text).toList());
        while (header.get(header.size() - 1).isEmpty()) {
            header.remove(header.size() - 1);
        }
        for (String column : BindingsFile.COLUMNS) {
            boolean needed = changed.stream().anyMatch(row -> !cell(row, column).isEmpty());
            if (needed && !header.contains(column)) {
                header.add(column);
            }
        }
        return header;
    }

    private void appendHeader(StringBuilder text, List<String> header) {
        boolean same = file.isPresent()
                && file.get().rows().get(0).cells().stream()
                        .map(Cell::text)
                        .toList()
                        .containsAll(header);
        text.append(same ? terminated(textOf(0)) : CsvLine.of(header, separator) + lineEnd);
    }

    private String terminated(String line) {
        return line.endsWith("\n") || line.endsWith("\r") ? line : line + lineEnd;
    }

    private String line(List<String> header, List<Cell> old, BindingRow row) {
        List<String> cells = new ArrayList<>();
        for (int i = 0; i < header.size(); i++) {
            String kept = i < old.size() ? old.get(i).text() : "";
            cells.add(BindingsFile.COLUMNS.contains(header.get(i)) ? cell(row, header.get(i)) : kept);
        }
        return CsvLine.of(cells, separator) + lineEnd;
    }

    private static String cell(BindingRow row, String column) {
        return switch (column) {
            case "type" -> row.type().text();
            case "point" -> row.point().text();
            case "object" -> row.object().word();
            case "offset" -> String.valueOf(row.offset());
            case "states" -> StateNumbersCell.text(row.states());
            case "at" -> row.at();
            case "was" -> String.join("|", row.was());
            default -> row.gone().word();
        };
    }

    /**
     * Writes the file whole or not at all, with the permissions that it had.
     *
     * @throws IOException where it cannot be written, or is no longer what was read
     */
    void write(Path folder, List<BindingRow> rows) throws IOException {
        Path path = folder.resolve(BindingsFile.NAME);
        if (isOther(path)) {
            throw new IOException("it was changed by somebody else meanwhile");
        }
        String text = with(rows);
        byte[] bytes = file.map(f -> f.text().encode(text)).orElseGet(() -> text.getBytes(StandardCharsets.UTF_8));
        Path next = folder.resolve("." + BindingsFile.NAME + ".next");
        try {
            Files.write(next, bytes);
            if (Files.exists(path) && Files.getFileStore(path).supportsFileAttributeView("posix")) {
                Files.setPosixFilePermissions(next, Files.getPosixFilePermissions(path));
            }
            Files.move(next, path, StandardCopyOption.ATOMIC_MOVE, StandardCopyOption.REPLACE_EXISTING);
        } finally {
            Files.deleteIfExists(next);
        }
    }

    private boolean isOther(Path path) throws IOException {
        if (file.isEmpty()) {
            return Files.exists(path) && Files.size(path) > 0;
        }
        byte[] read = file.get().text().encode(file.get().text().content());
        return !Files.exists(path) || !Arrays.equals(Files.readAllBytes(path), read);
    }
}
