package burnerbridge.config.csv;

import burnerbridge.config.problem.Problems;
import burnerbridge.config.problem.Problems.Place;
import burnerbridge.config.problem.Unreadable;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import tools.jackson.core.JacksonException;
import tools.jackson.core.TokenStreamLocation;

/** Reads a CSV file with a header, each cell with its line and column, whatever a spreadsheet did to it. */
public final class CsvTable {
    private static final long LARGEST = 32 << 20;

    /** A cell, trimmed, and where it stands. */
    public record Cell(String text, Place place) {}

    private CsvTable() {}

    /** The header's cells, then a list of cells for each line that is not empty. */
    public static Optional<List<List<Cell>>> read(Path folder, String file, Problems problems) {
        return readFile(folder, file, problems)
                .map(found -> found.rows().stream().map(CsvFile.Row::cells).toList());
    }

    /** The file with its cells as {@link CellHabits} understands them. */
    public static Optional<CsvFile> readFile(Path folder, String file, Problems problems) {
        return text(folder, file, problems)
                .flatMap(text -> parse(file, text, problems))
                .map(found -> withHabits(found, problems));
    }

    private static Optional<CsvText> text(Path folder, String file, Problems problems) {
        Place whole = Place.wholeFile(file);
        try {
            if (Files.size(folder.resolve(file)) > LARGEST) {
                problems.error(whole, "is larger than " + (LARGEST >> 20) + " MiB, which no table of points is");
                return Optional.empty();
            }
            byte[] bytes = Files.readAllBytes(folder.resolve(file));
            if (isWorkbook(bytes)) {
                problems.error(
                        whole,
                        "is a workbook under the name of a CSV file; 'burner-bridge from-spreadsheet' makes CSV of an"
                                + " .xlsx");
                return Optional.empty();
            }
            Optional<CsvText> text = CsvText.of(bytes);
            if (text.isEmpty()) {
                problems.error(whole, "is neither UTF-8 nor another text that a spreadsheet saves");
            }
            text.filter(t -> !t.isUtf8())
                    .ifPresent(t -> problems.note(
                            whole,
                            "is not UTF-8 and was read as " + t.charset().name() + "; look at its accents and °"));
            return text;
        } catch (NoSuchFileException e) {
            problems.error(whole, "is missing in " + folder);
        } catch (IOException e) {
            problems.error(whole, Unreadable.why(e));
        }
        return Optional.empty();
    }

    /** A zip file, as .xlsx and .ods are, or the container of .xls. */
    private static boolean isWorkbook(byte[] bytes) {
        if (bytes.length < 4) {
            return false;
        }
        int magic = (bytes[0] & 0xFF) << 24 | (bytes[1] & 0xFF) << 16 | (bytes[2] & 0xFF) << 8 | bytes[3] & 0xFF;
        return magic == 0x504B0304 || magic == 0xD0CF11E0;
    }

    private static Optional<CsvFile> parse(String file, CsvText text, Problems problems) {
        try {
            return Optional.of(CsvFile.parse(file, text));
        } catch (JacksonException e) {
            char separator = CsvHeaderLine.of(text.content()).separator();
            TokenStreamLocation at = e.getLocation();
            int end = at == null ? text.content().length() : (int) at.getCharOffset();
            Place begun = QuotedCells.lastBegun(file, text.content(), separator, end);
            Place stopped = at == null ? begun : new Place(file, at.getLineNr(), at.getColumnNr());
            problems.error(
                    begun,
                    "is not CSV: the quoted cell that begins here does not end as one should (seen in line "
                            + stopped.line() + ", column " + stopped.column()
                            + "); a quote is missing, or one within the cell is not doubled");
            return Optional.empty();
        }
    }

    private static CsvFile withHabits(CsvFile file, Problems problems) {
        if (file.rows().isEmpty()) {
            return file;
        }
        List<Cell> header = file.rows().get(0).cells().stream()
                .map(cell -> new Cell(CellHabits.plain(cell.text()), cell.place()))
                .toList();
        CellHabits habits = CellHabits.of(file, header);
        List<CsvFile.Row> rows = new ArrayList<>();
        rows.add(new CsvFile.Row(header, file.rows().get(0).offset()));
        for (CsvFile.Row row : file.rows().subList(1, file.rows().size())) {
            List<Cell> cells = new ArrayList<>();
            for (int i = 0; i < row.cells().size(); i++) {
                String column = i < header.size() ? header.get(i).text() : "";
                Cell cell = row.cells().get(i);
                cells.add(new Cell(habits.read(column, cell, problems), cell.place()));
            }
            rows.add(new CsvFile.Row(List.copyOf(cells), row.offset()));
        }
        return new CsvFile(file.text(), file.separator(), List.copyOf(rows));
    }

    /** The cells of a row by the header's column names; a row that is too long is a problem. */
    public static Map<String, Cell> byColumn(List<Cell> header, List<Cell> row, Problems problems) {
        Map<String, Cell> cells = new LinkedHashMap<>();
        for (int i = 0; i < row.size(); i++) {
            if (i < header.size()) {
                cells.put(header.get(i).text(), row.get(i));
            } else if (!row.get(i).text().isEmpty()) {
                problems.error(
                        row.get(i).place(),
                        "this row has more cells than the header (" + row.size() + " for " + header.size() + ")"
                                + "; a cell with a separator in it needs quotes");
                return cells;
            }
        }
        return cells;
    }
}
