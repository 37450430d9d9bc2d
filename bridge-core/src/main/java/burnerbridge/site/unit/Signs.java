package burnerbridge.site.unit;

/** Brings signs that look alike to the one that the table uses. */
final class Signs {
    /** Each sign and what it means: superscripts, the signs for micro, ohm and degree of other blocks. */
    private static final String[][] ALIKE = {
        {"²", "2"},
        {"³", "3"},
        {"\u03BC", "\u00B5"}, // Greek mu: micro sign
        {"\u2126", "\u03A9"}, // ohm sign: Greek capital omega
        {"\u2103", "°C"},
        {"\u2109", "°F"},
        {"\u00BA", "°"}, // masculine ordinal indicator
        {"\u02DA", "°"}, // ring above
    };

    private Signs() {}

    static String plain(String written) {
        String plain = written;
        for (String[] pair : ALIKE) {
            plain = plain.replace(pair[0], pair[1]);
        }
        return plain;
    }
}
