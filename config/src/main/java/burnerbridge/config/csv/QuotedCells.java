package burnerbridge.config.csv;

import burnerbridge.config.problem.Problems.Place;

/** Finds where the quoted cell began that a broken CSV file is broken by. */
final class QuotedCells {
    private QuotedCells() {}

    /**
     * The place of the last quoted cell that begins before an offset.
     *
     * @param until where the reader of the file gave up
     */
    static Place lastBegun(String file, String content, char separator, int until) {
        Place last = Place.wholeFile(file);
        boolean quoted = false;
        boolean atStart = true;
        int line = 1;
        int lineStart = 0;
        for (int i = 0; i < Math.min(until, content.length()); i++) {
            char c = content.charAt(i);
            if (c == '"') {
                if (!quoted && atStart) {
                    last = new Place(file, line, i - lineStart + 1);
                    quoted = true;
                } else {
                    quoted = quoted ? false : content.charAt(i - 1) == '"' && i > 0;
                }
            }
            boolean lineEnds = c == '\n' || (c == '\r' && !(i + 1 < content.length() && content.charAt(i + 1) == '\n'));
            atStart = !quoted && (lineEnds || c == separator || (atStart && c == ' '));
            if (lineEnds) {
                line++;
                lineStart = i + 1;
            }
        }
        return last;
    }
}
