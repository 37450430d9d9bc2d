package burnerbridge.config.workbook;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import javax.xml.stream.XMLStreamException;
import javax.xml.stream.XMLStreamReader;

/**
 * What a sheet has besides its cells' values, and whether it keeps to bounds within which the library may be
 * trusted with it.
 *
 * @param merged ranges such as {@code A5:A9}
 * @param hiddenColumns from 0
 */
record SheetOutline(List<String> merged, List<Integer> hiddenColumns) {
    private static final int MOST_ROWS = 50_000;
    private static final int MOST_COLUMNS = 1024;

    SheetOutline {
        merged = List.copyOf(merged);
        hiddenColumns = List.copyOf(hiddenColumns);
    }

    /** @throws WorkbookException where the part is past the bounds */
    static SheetOutline of(byte[] part) throws WorkbookException {
        Scan scan = new Scan();
        XmlWalk.over(part, scan::element);
        if (!scan.objection.isEmpty()) {
            throw new WorkbookException(scan.objection);
        }
        return new SheetOutline(scan.merged, scan.hidden);
    }

    /** A reference past the end of the shared texts would keep the library busy for ever. */
    static void checkSharedTexts(Map<String, byte[]> parts) throws WorkbookException {
        int[] texts = {0};
        long[] highest = {-1};
        for (byte[] part : parts.values()) {
            boolean[] shared = {false};
            XmlWalk.over(part, reader -> {
                String name = reader.getLocalName();
                texts[0] += name.equals("si") ? 1 : 0;
                if (name.equals("c")) {
                    shared[0] = XmlWalk.attribute(reader, "t").equals("s");
                } else if (name.equals("v") && shared[0]) {
                    highest[0] = Math.max(highest[0], number(text(reader)));
                }
            });
        }
        if (highest[0] >= texts[0]) {
            throw new WorkbookException("is broken: a cell has text " + highest[0] + " of " + texts[0]);
        }
    }

    private static String text(XMLStreamReader reader) {
        try {
            return reader.getElementText().strip();
        } catch (XMLStreamException e) {
            return "";
        }
    }

    private static long number(String text) {
        return text.matches("\\d{1,9}") ? Long.parseLong(text) : Long.MAX_VALUE;
    }

    /** One pass over a sheet. */
    private static final class Scan {
        private final List<String> merged = new ArrayList<>();
        private final List<Integer> hidden = new ArrayList<>();
        private String objection = "";
        private int rows;

        void element(XMLStreamReader reader) {
            switch (reader.getLocalName()) {
                case "row" -> row();
                case "c" -> cell(XmlWalk.attribute(reader, "r"));
                case "mergeCell" -> merged.add(XmlWalk.attribute(reader, "ref"));
                case "col" -> column(reader);
                default -> {}
            }
        }

        private void row() {
            rows++;
            if (rows > MOST_ROWS) {
                objection = "has more than " + MOST_ROWS + " rows, which no point list has";
            }
        }

        private void cell(String reference) {
            if (!reference.isEmpty() && !reference.matches("[A-Z]{1,3}\\d{1,7}")) {
                objection = "is broken: a cell is called '" + reference + "'";
            } else if (columnOf(reference) >= MOST_COLUMNS) {
                objection = "has a cell past column " + MOST_COLUMNS + " (" + reference + "), which no point list has";
            }
        }

        private void column(XMLStreamReader reader) {
            String hiddenText = XmlWalk.attribute(reader, "hidden");
            if (hiddenText.equals("1") || hiddenText.equals("true")) {
                long first = number(XmlWalk.attribute(reader, "min"));
                long last = Math.min(number(XmlWalk.attribute(reader, "max")), MOST_COLUMNS);
                for (long column = first; column <= last; column++) {
                    hidden.add((int) column - 1);
                }
            }
        }
    }

    private static int columnOf(String reference) {
        int column = 0;
        for (int i = 0; i < reference.length() && reference.charAt(i) >= 'A'; i++) {
            column = column * 26 + reference.charAt(i) - 'A' + 1;
        }
        return column - 1;
    }
}
