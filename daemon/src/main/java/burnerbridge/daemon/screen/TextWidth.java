package burnerbridge.daemon.screen;

/**
 * How many cells of a terminal a text takes. Characters of East Asian scripts and pictures take two, marks
 * on other characters none (after Unicode Standard Annex 11, in ranges, from memory).
 */
final class TextWidth {
    private static final int[][] WIDE = {
        {0x1100, 0x115F}, {0x2E80, 0x303E}, {0x3041, 0xA4CF}, {0xA960, 0xA97F}, {0xAC00, 0xD7A3}, {0xF900, 0xFAFF},
        {0xFE30, 0xFE6F}, {0xFF00, 0xFF60}, {0xFFE0, 0xFFE6}, {0x1F300, 0x1F64F}, {0x1F900, 0x1F9FF}, {0x20000, 0x3FFFD}
    };

    private TextWidth() {}

    static int of(String text) {
        return text.codePoints().map(TextWidth::of).sum();
    }

    private static int of(int codePoint) {
        int type = Character.getType(codePoint);
        if (type == Character.NON_SPACING_MARK || type == Character.ENCLOSING_MARK) {
            return 0;
        }
        for (int[] range : WIDE) {
            if (codePoint >= range[0] && codePoint <= range[1]) {
                return 2;
            }
        }
        return 1;
    }

    /** The text without what a terminal would obey instead of showing it. */
    static String harmless(String text) {
        StringBuilder shown = new StringBuilder(text.length());
        text.codePoints().forEach(codePoint -> {
            switch (Character.getType(codePoint)) {
                case Character.CONTROL, Character.LINE_SEPARATOR, Character.PARAGRAPH_SEPARATOR -> shown.append('·');
                case Character.FORMAT, Character.SURROGATE, Character.UNASSIGNED, Character.PRIVATE_USE ->
                    shown.append('·');
                default -> shown.appendCodePoint(codePoint);
            }
        });
        return shown.toString();
    }

    /** Cut to a width, with an ellipsis where something is missing. */
    static String cut(String text, int width) {
        if (of(text) <= width) {
            return text;
        }
        StringBuilder cut = new StringBuilder();
        int left = width - 1;
        for (int at = 0; at < text.length() && left >= of(text.codePointAt(at)); ) {
            int codePoint = text.codePointAt(at);
            cut.appendCodePoint(codePoint);
            left -= of(codePoint);
            at += Character.charCount(codePoint);
        }
        return width < 1 ? "" : cut.append('…').toString();
    }

    /** Cut or filled up to exactly a width. */
    static String fit(String text, int width, boolean toTheRight) {
        String cut = cut(text, width);
        String blank = " ".repeat(Math.max(0, width - of(cut)));
        return toTheRight ? blank + cut : cut + blank;
    }
}
