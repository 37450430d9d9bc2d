package burnerbridge.config.csv;

import burnerbridge.config.csv.CsvTable.Cell;
import burnerbridge.config.problem.Problems.Place;
import java.util.ArrayList;
import java.util.List;
import tools.jackson.core.JacksonException;
import tools.jackson.core.JsonParser;
import tools.jackson.core.JsonToken;
import tools.jackson.core.TokenStreamLocation;
import tools.jackson.dataformat.csv.CsvMapper;
import tools.jackson.dataformat.csv.CsvReadFeature;
import tools.jackson.dataformat.csv.CsvSchema;

/**
 * A CSV file, cell by cell, with what is needed to put other rows into it and leave the rest as it is.
 *
 * @param rows the header first; rows without any text are left out
 */
public record CsvFile(CsvText text, char separator, List<Row> rows) {
    private static final CsvMapper MAPPER =
            CsvMapper.builder().enable(CsvReadFeature.WRAP_AS_ARRAY).build();

    /**
     * The cells of a row.
     *
     * @param offset where it begins in the text
     */
    public record Row(List<Cell> cells, int offset) {}

    /** @throws JacksonException where the text is no CSV */
    static CsvFile parse(String file, CsvText text) {
        CsvHeaderLine header = CsvHeaderLine.of(text.content());
        List<Row> rows = new ArrayList<>();
        CsvSchema schema = CsvSchema.emptySchema().withColumnSeparator(header.separator());
        try (JsonParser parser = MAPPER.reader().with(schema).createParser(header.toParse())) {
            List<Cell> cells = new ArrayList<>();
            int offset = -1;
            for (JsonToken token = parser.nextToken(); token != null; token = parser.nextToken()) {
                if (token == JsonToken.VALUE_STRING) {
                    TokenStreamLocation at = parser.currentTokenLocation();
                    offset = offset < 0 ? lineStart(text.content(), (int) at.getCharOffset()) : offset;
                    cells.add(new Cell(parser.getString(), new Place(file, at.getLineNr(), at.getColumnNr())));
                } else if (token == JsonToken.END_ARRAY) {
                    if (cells.stream().anyMatch(cell -> !cell.text().isBlank())) {
                        rows.add(new Row(List.copyOf(cells), offset));
                    }
                    cells.clear();
                    offset = -1;
                }
            }
        }
        return new CsvFile(text, header.separator(), List.copyOf(rows));
    }

    /** The reader leaves out spaces in front of a cell. */
    private static int lineStart(String content, int offset) {
        int start = Math.min(offset, content.length());
        while (start > 0 && content.charAt(start - 1) == ' ') {
            start--;
        }
        return start;
    }

    /** A row as it stands in the file, with its line end. */
    public String textOf(int row) {
        int end = row + 1 < rows.size()
                ? rows.get(row + 1).offset()
                : text.content().length();
        return text.content().substring(rows.get(row).offset(), end);
    }

    /** What stands before the header. */
    public String preamble() {
        return text.content().substring(0, rows.isEmpty() ? 0 : rows.get(0).offset());
    }
}
