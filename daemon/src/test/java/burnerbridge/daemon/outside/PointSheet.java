package burnerbridge.daemon.outside;

import burnerbridge.outside.OutsideProgram;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.stream.Stream;

/**
 * The point lists of {@code outside/every-format}, and what must be read at each of their points. Their own columns
 * {@code note-value} and {@code note-reason} say it, which the bridge does not look at.
 */
enum PointSheet {
    /** Each row says all of itself; addresses as on the wire. */
    EXPLICIT("numbering: wire"),
    /** Numbering, order and the first bit's number are the type's. */
    BY_TYPE("numbering: prefixed, order: low-word-first+swap-bytes, first-bit: 1");

    final String settings;

    PointSheet(String settings) {
        this.settings = settings;
    }

    /**
     * One point.
     *
     * @param value as people read it; empty where there must be none
     * @param reason of the quality
     */
    record Row(PointSheet sheet, String name, String format, String order, String value, String reason) {
        @Override
        public String toString() {
            return sheet + " " + name + " = " + (value.isEmpty() ? reason : value);
        }
    }

    String file() {
        return name().toLowerCase(Locale.ROOT).replace('_', '-') + ".csv";
    }

    String text() {
        try {
            return Files.readString(OutsideProgram.file("every-format").resolve(file()));
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    private Stream<Row> rows() {
        List<String> lines = text().lines().toList();
        return lines.stream().skip(1).map(line -> row(cells(lines.get(0)), cells(line)));
    }

    private static List<String> cells(String line) {
        return Arrays.asList(line.split(",", -1));
    }

    private Row row(List<String> header, List<String> cells) {
        Map<String, String> row = new HashMap<>();
        for (int i = 0; i < cells.size(); i++) {
            row.put(header.get(i), cells.get(i));
        }
        String reason = row.getOrDefault("note-reason", "");
        return new Row(
                this,
                row.getOrDefault("name", ""),
                row.getOrDefault("format", ""),
                row.getOrDefault("order", ""),
                row.getOrDefault("note-value", ""),
                reason.isEmpty() ? "none" : reason);
    }

    static Stream<Row> allRows() {
        return Arrays.stream(values()).flatMap(PointSheet::rows);
    }
}
