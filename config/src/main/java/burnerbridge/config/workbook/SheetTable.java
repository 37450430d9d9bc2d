package burnerbridge.config.workbook;

import burnerbridge.config.csv.CsvLine;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Locale;
import java.util.OptionalInt;
import java.util.Set;
import java.util.stream.Collectors;
import org.dhatim.fastexcel.reader.CellAddress;
import org.dhatim.fastexcel.reader.Row;

/** Turns the rows of a sheet into CSV. */
final class SheetTable {
    /** A row with all of these is the header of a point list. */
    private static final Set<String> OF_A_HEADER = Set.of("name", "table", "address");

    private final String sheet;
    private final List<Row> rows;
    private final SheetOutline outline;
    private final List<String> findings = new ArrayList<>();
    private final CellText cells = new CellText(findings);

    SheetTable(String sheet, List<Row> rows, SheetOutline outline) {
        this.sheet = sheet;
        this.rows = rows;
        this.outline = outline;
    }

    Conversion convert(OptionalInt headerRow) throws WorkbookException {
        int first = headerRow.isPresent() ? at(headerRow.getAsInt()) : header();
        List<String> header = texts(rows.get(first)).stream()
                .map(text -> text.toLowerCase(Locale.ROOT))
                .collect(Collectors.toCollection(ArrayList::new));
        int width = widthOf(header);
        StringBuilder csv = new StringBuilder(line(header, width));
        findings.clear();
        tellWhatIsAbove(first);
        tellOutline(header, width);
        int count = 0;
        for (Row row : rows.subList(first + 1, rows.size())) {
            List<String> texts = texts(row);
            if (widthOf(texts) > 0) {
                count++;
                tellRow(row, texts, width);
                csv.append(line(texts, Math.max(width, widthOf(texts))));
            }
        }
        return new Conversion(csv.toString(), sheet, rows.get(first).getRowNum(), count, findings);
    }

    private int at(int number) throws WorkbookException {
        for (int i = 0; i < rows.size(); i++) {
            if (rows.get(i).getRowNum() == number && widthOf(texts(rows.get(i))) > 0) {
                return i;
            }
        }
        throw new WorkbookException("sheet '" + sheet + "' has no text in row " + number);
    }

    private int header() throws WorkbookException {
        for (int i = 0; i < rows.size(); i++) {
            List<String> texts = texts(rows.get(i)).stream()
                    .map(text -> text.toLowerCase(Locale.ROOT))
                    .toList();
            if (texts.containsAll(OF_A_HEADER)) {
                return i;
            }
        }
        throw new WorkbookException("sheet '" + sheet + "' has no row with the column names "
                + String.join(", ", OF_A_HEADER.stream().sorted().toList())
                + "; name the columns as the point list has them, or say which row has the names with --header-row");
    }

    private List<String> texts(Row row) {
        List<String> texts = new ArrayList<>();
        for (int i = 0; i < row.getCellCount(); i++) {
            texts.add(cells.of(row.getCell(i)));
        }
        return texts;
    }

    private static int widthOf(List<String> texts) {
        int width = texts.size();
        while (width > 0 && texts.get(width - 1).isEmpty()) {
            width--;
        }
        return width;
    }

    private static String line(List<String> texts, int width) {
        List<String> padded = new ArrayList<>(texts.subList(0, Math.min(width, texts.size())));
        padded.addAll(Collections.nCopies(Math.max(0, width - padded.size()), ""));
        return CsvLine.of(padded, ',') + "\n";
    }

    private void tellWhatIsAbove(int first) {
        long above = rows.subList(0, first).stream()
                .filter(row -> row.stream()
                        .anyMatch(cell -> cell != null && !cell.getText().isBlank()))
                .count();
        if (above > 0) {
            findings.add(above + (above == 1 ? " row" : " rows") + " above the header left out");
        }
    }

    private void tellOutline(List<String> header, int width) {
        outline.merged()
                .forEach(
                        range -> findings.add("cells " + range + " are merged; only the first of them holds anything"));
        outline.hiddenColumns().stream()
                .filter(column -> column < width && !header.get(column).isEmpty())
                .forEach(column -> findings.add("column " + CellAddress.convertNumToColString(column) + ", "
                        + header.get(column) + ", is hidden; it was taken all the same"));
    }

    private void tellRow(Row row, List<String> texts, int width) {
        if (row.isHidden()) {
            findings.add("row " + row.getRowNum() + " is hidden; it was taken all the same");
        }
        if (widthOf(texts) > width) {
            findings.add("row " + row.getRowNum() + " has a cell right of the header's last column");
        }
    }
}
