package burnerbridge.bacnet.documents;

import java.util.List;
import java.util.stream.Collectors;

/** Lines of a table separated by semicolons, as the layout wants them. */
final class Cells {
    private Cells() {}

    static String line(List<String> cells) {
        return cells.stream().map(Cells::cell).collect(Collectors.joining(";")) + "\r\n";
    }

    /** Quoted where it must be; what a spreadsheet would run as a formula has an apostrophe in front. */
    private static String cell(String text) {
        String plain = text.replaceAll("[\\r\\n]+", " ");
        String safe = !plain.isEmpty() && "=+-@\t".indexOf(plain.charAt(0)) >= 0 ? "'" + plain : plain;
        return safe.indexOf(';') >= 0 || safe.indexOf('"') >= 0 ? '"' + safe.replace("\"", "\"\"") + '"' : safe;
    }
}
