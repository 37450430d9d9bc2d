package burnerbridge.config;

import burnerbridge.config.Problems.Place;
import java.io.IOException;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import tools.jackson.core.JacksonException;
import tools.jackson.core.JsonParser;
import tools.jackson.core.JsonToken;
import tools.jackson.core.TokenStreamLocation;
import tools.jackson.dataformat.csv.CsvMapper;
import tools.jackson.dataformat.csv.CsvReadFeature;
import tools.jackson.dataformat.csv.CsvSchema;

/** A CSV file with a header, each cell with its line and column. */
final class CsvTable {
    private static final char BYTE_ORDER_MARK = '\uFEFF';
    private static final CsvMapper MAPPER =
            CsvMapper.builder().enable(CsvReadFeature.WRAP_AS_ARRAY).build();

    /** A cell, trimmed, and where it stands. */
    record Cell(String text, Place place) {}

    private CsvTable() {}

    /** The header's cells, then a list of cells for each line that is not empty. */
    static Optional<List<List<Cell>>> read(Path folder, String file, Problems problems) {
        try {
            String text = Files.readString(folder.resolve(file), StandardCharsets.UTF_8);
            return knownHabit(file, text, problems) ? Optional.empty() : Optional.of(parse(file, text));
        } catch (NoSuchFileException e) {
            problems.error(Place.wholeFile(file), "is missing in " + folder);
        } catch (CharacterCodingException e) {
            problems.error(
                    Place.wholeFile(file),
                    "is not UTF-8; a spreadsheet that saved it as Windows-1252 can save it as CSV UTF-8 instead");
        } catch (IOException e) {
            problems.error(Place.wholeFile(file), "cannot be read: " + e.getMessage());
        } catch (JacksonException e) {
            TokenStreamLocation at = e.getLocation();
            Place place = at == null ? Place.wholeFile(file) : new Place(file, at.getLineNr(), at.getColumnNr());
            problems.error(
                    place,
                    "is not CSV: " + e.getOriginalMessage()
                            + "; where a quote is missing, the cell that lacks it may begin many lines before");
        }
        return Optional.empty();
    }

    /** What spreadsheets do that this version names rather than reads. */
    private static boolean knownHabit(String file, String text, Problems problems) {
        String header = text.lines().findFirst().orElse("");
        if (header.startsWith("sep=") || header.startsWith(BYTE_ORDER_MARK + "sep=")) {
            problems.error(new Place(file, 1, 1), "begins with 'sep='; take that line out, the header must come first");
            return true;
        }
        if (header.indexOf('\t') >= 0 && header.indexOf(',') < 0 && header.indexOf(';') < 0) {
            problems.error(new Place(file, 1, 1), "is separated by tabs; save it with commas or semicolons");
            return true;
        }
        return false;
    }

    private static List<List<Cell>> parse(String file, String text) {
        String content = !text.isEmpty() && text.charAt(0) == BYTE_ORDER_MARK ? text.substring(1) : text;
        CsvSchema schema = CsvSchema.emptySchema().withColumnSeparator(separatorOf(content));
        List<List<Cell>> rows = new ArrayList<>();
        try (JsonParser parser = MAPPER.reader().with(schema).createParser(content)) {
            List<Cell> row = new ArrayList<>();
            for (JsonToken token = parser.nextToken(); token != null; token = parser.nextToken()) {
                if (token == JsonToken.VALUE_STRING) {
                    TokenStreamLocation at = parser.currentTokenLocation();
                    row.add(new Cell(parser.getString().strip(), new Place(file, at.getLineNr(), at.getColumnNr())));
                } else if (token == JsonToken.END_ARRAY) {
                    if (row.stream().anyMatch(cell -> !cell.text().isEmpty())) {
                        rows.add(List.copyOf(row));
                    }
                    row.clear();
                }
            }
        }
        return rows;
    }

    /** A semicolon where the header has one and no comma. */
    private static char separatorOf(String content) {
        String header = content.lines().findFirst().orElse("");
        return header.indexOf(';') >= 0 && header.indexOf(',') < 0 ? ';' : ',';
    }

    /** The cells of a row by the header's column names; a row that is too long is a problem. */
    static Map<String, Cell> byColumn(List<Cell> header, List<Cell> row, Problems problems) {
        Map<String, Cell> cells = new LinkedHashMap<>();
        for (int i = 0; i < row.size(); i++) {
            if (i < header.size()) {
                cells.put(header.get(i).text(), row.get(i));
            } else if (!row.get(i).text().isEmpty()) {
                problems.error(
                        row.get(i).place(),
                        "this row has more cells than the header (" + row.size() + " for " + header.size() + ")");
                return cells;
            }
        }
        return cells;
    }
}
