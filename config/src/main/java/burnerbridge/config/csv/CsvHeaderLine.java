package burnerbridge.config.csv;

import java.util.Locale;

/** What separates the columns: said by a first line such as {@code sep=;}, or seen in the header. */
record CsvHeaderLine(char separator, String toParse) {
    private static final String CHOICES = ",;\t";

    static CsvHeaderLine of(String content) {
        int end = endOfFirstLine(content);
        String first = content.substring(0, end).strip().replace("\"", "").toLowerCase(Locale.ROOT);
        if (first.startsWith("sep=") && first.length() == 5 || first.equals("sep=")) {
            // Blanked, so that lines and columns stay those of the file.
            String rest = " ".repeat(end) + content.substring(end);
            return new CsvHeaderLine(first.length() == 5 ? first.charAt(4) : '\t', rest);
        }
        return new CsvHeaderLine(mostFrequent(content), content);
    }

    private static int endOfFirstLine(String content) {
        for (int i = 0; i < content.length(); i++) {
            if (content.charAt(i) == '\n' || content.charAt(i) == '\r') {
                return i;
            }
        }
        return content.length();
    }

    /** The separator that stands most often in the first line with any text, outside of quotes. */
    private static char mostFrequent(String content) {
        int[] counts = new int[CHOICES.length()];
        boolean quoted = false;
        boolean begun = false;
        for (int i = 0; i < content.length(); i++) {
            char c = content.charAt(i);
            quoted ^= c == '"';
            begun |= !Character.isWhitespace(c);
            if (begun && !quoted && (c == '\n' || c == '\r')) {
                break;
            }
            int choice = quoted ? -1 : CHOICES.indexOf(c);
            if (choice >= 0) {
                counts[choice]++;
            }
        }
        int most = 0;
        for (int i = 1; i < counts.length; i++) {
            most = counts[i] > counts[most] ? i : most;
        }
        return CHOICES.charAt(most);
    }
}
