package burnerbridge.simulator.demo.screen;

import java.util.Map;

/** Of a terminal, in characters. */
record Size(int columns, int rows) {
    static final Size USUAL = new Size(80, 24);

    private static final int LEAST_COLUMNS = 40;
    private static final int LEAST_ROWS = 12;

    Size {
        columns = Math.max(LEAST_COLUMNS, columns);
        rows = Math.max(LEAST_ROWS, rows);
    }

    /** As {@code stty size} tells it, rows first; else as the environment has it, else the usual. */
    static Size of(String told, Map<String, String> environment) {
        String[] words = told.strip().split("\\s+");
        if (words.length == 2) {
            return of(words[1], words[0]);
        }
        return of(environment.getOrDefault("COLUMNS", ""), environment.getOrDefault("LINES", ""));
    }

    private static Size of(String columns, String rows) {
        return new Size(number(columns, USUAL.columns()), number(rows, USUAL.rows()));
    }

    private static int number(String word, int otherwise) {
        return word.matches("[1-9]\\d{0,3}") ? Integer.parseInt(word) : otherwise;
    }
}
