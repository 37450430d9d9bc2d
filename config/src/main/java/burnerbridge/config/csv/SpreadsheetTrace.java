package burnerbridge.config.csv;

import java.util.Locale;
import java.util.Set;
import java.util.regex.Pattern;

/** Recognises, in a cell that is wrong, what a spreadsheet made of what was typed. */
public final class SpreadsheetTrace {
    /** What spreadsheets show for true and false; the words of the languages that most are used in. */
    private static final Set<String> TRUE = Set.of(
            "true",
            "wahr",
            "vrai",
            "vero",
            "verdadero",
            "verdadeiro",
            "waar",
            "sant",
            "sand",
            "sann",
            "tosi",
            "prawda",
            "pravda",
            "igaz",
            "adevărat",
            "doğru",
            "истина",
            "cert");

    private static final Set<String> FALSE = Set.of(
            "false",
            "falsch",
            "faux",
            "falso",
            "onwaar",
            "falskt",
            "falsk",
            "usann",
            "epätosi",
            "fałsz",
            "nepravda",
            "hamis",
            "fals",
            "yanliş",
            "yanlış",
            "ложь");

    private static final String MONTH = "(?:jan|ene|gen|feb|fév|fev|febr|mar|mär|mrt|apr|abr|avr|may|mai|maj|mag|mei"
            + "|jun|juin|giu|jul|juil|lug|aug|août|ago|sep|sept|set|okt|oct|ott|out|nov|dec|dez|déc|dic|des)\\p{L}{0,7}\\.?";
    private static final Pattern DATE =
            Pattern.compile("\\d{1,2}[-./ ]{1,2}" + MONTH + "(?:[-./ ]{1,2}\\d{2,4})?|" + MONTH
                    + "[-./ ]{1,2}\\d{2,4}|\\d{1,2}[./-]\\d{1,2}[./-]\\d{2,4}(?: .*)?|\\d{4}-\\d{1,2}-\\d{1,2}(?:[ T].*)?"
                    + "|\\d{1,2}:\\d{2}(?::\\d{2})?(?: [ap]m)?");
    private static final Pattern EXPONENT = Pattern.compile("[+-]?\\d+(?:[.,]\\d+)?[eE]\\+?\\d{1,3}");
    private static final Pattern THOUSANDS =
            Pattern.compile("[+-]?\\d{1,3}(?:(?:[ '’]\\d{3})+|(?:[.]\\d{3})+|(?:,\\d{3})+)");
    private static final Pattern POINT_AND_COMMA = Pattern.compile("[+-]?\\d+(?:[., ]\\d{3})*[.,]\\d+");

    /** No trace is longer, and some patterns take a stack as deep as the text is long. */
    private static final int LONGEST = 200;

    private SpreadsheetTrace() {}

    public static boolean isTrue(String text) {
        return TRUE.contains(text.toLowerCase(Locale.ROOT));
    }

    public static boolean isFalse(String text) {
        return FALSE.contains(text.toLowerCase(Locale.ROOT));
    }

    /** {@code "; …"} to put behind a message about a cell, or nothing where no trace is seen. */
    public static String hint(String text) {
        if (text.length() > LONGEST) {
            return "";
        }
        if (isTrue(text) || isFalse(text)) {
            return "; a spreadsheet shows truth values so: format the cell as text and type what is meant";
        }
        if (DATE.matcher(text.toLowerCase(Locale.ROOT)).matches()) {
            return "; a spreadsheet makes dates of numbers such as 3.1 and 1-2: format the cell as text and type it"
                    + " again";
        }
        if (EXPONENT.matcher(text).matches()) {
            return "; a spreadsheet shortens long numbers so and may have dropped digits: type it again as text";
        }
        if (text.matches("#{2,}")) {
            return "; a spreadsheet saved this of a column that was too narrow to show it";
        }
        if (text.matches("#\\p{Lu}[\\p{Lu}/0-9]*[!?]?(?:/0!)?") || text.startsWith("=")) {
            return "; it is a formula or its failure: keep the value alone";
        }
        return text.matches(".*[“”„«»].*") ? "; it holds typographic quotes" : numberHint(text);
    }

    private static String numberHint(String text) {
        if (THOUSANDS.matcher(text).matches()) {
            return "; it may hold a separator of thousands: write the number without";
        }
        if (POINT_AND_COMMA.matcher(text).matches() && text.indexOf(',') >= 0) {
            return text.indexOf('.') >= 0
                    ? "; it has both a point and a comma: write it without a separator of thousands"
                    : "; a decimal comma is read only in a file whose columns are separated by semicolons";
        }
        return "";
    }
}
