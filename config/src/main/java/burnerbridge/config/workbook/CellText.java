package burnerbridge.config.workbook;

import java.math.BigDecimal;
import java.math.MathContext;
import java.time.DateTimeException;
import java.time.LocalDateTime;
import java.time.LocalTime;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import org.dhatim.fastexcel.reader.Cell;
import org.dhatim.fastexcel.reader.CellType;
import org.dhatim.fastexcel.reader.ExcelReaderException;
import org.jspecify.annotations.Nullable;

/** A cell as it was typed, as far as a workbook still knows. */
final class CellText {
    /** As many digits as a spreadsheet shows; the rest is what binary fractions leave behind. */
    private static final MathContext SHOWN = new MathContext(15);

    /** The formats of dates and times that have numbers of their own (ECMA-376 part 1, 18.8.30; from memory). */
    private static final Set<Integer> DATE_FORMATS = Set.of(14, 15, 16, 17, 18, 19, 20, 21, 22, 45, 46, 47);

    private final List<String> findings;

    CellText(List<String> findings) {
        this.findings = findings;
    }

    String of(@Nullable Cell cell) {
        if (cell == null || cell.getType() == CellType.EMPTY) {
            return "";
        }
        if (cell.getType() == CellType.FORMULA
                && (cell.getValue() == null || cell.getText().isEmpty())) {
            tell(cell, "is a formula without a value; open the workbook, let it calculate, and save it");
            return "";
        }
        if (cell.getType() == CellType.ERROR || cell.getText().startsWith("#") && cell.getType() == CellType.FORMULA) {
            tell(cell, "holds an error, " + cell.getText());
            return cell.getText();
        }
        if (cell.getValue() instanceof Boolean truth) {
            String text = truth.toString().toUpperCase(Locale.ROOT);
            tell(cell, "holds the truth value " + text + ", which was probably typed as a word");
            return text;
        }
        return cell.getValue() instanceof BigDecimal number
                ? number(cell, number)
                : cell.getText().strip();
    }

    private String number(Cell cell, BigDecimal number) {
        String format = cell.getDataFormatString() == null ? "" : cell.getDataFormatString();
        if (isDate(cell.getDataFormatId(), format)) {
            String text = date(cell);
            tell(cell, "holds the date " + text + ", which was probably typed as a number such as 3.1 or 1-2");
            return text;
        }
        if (format.contains("%")) {
            tell(cell, "is shown as a percentage; its value is " + plain(number));
        }
        return plain(number);
    }

    private static String plain(BigDecimal number) {
        BigDecimal rounded = number.round(SHOWN).stripTrailingZeros();
        return Math.abs(rounded.scale()) > 20 ? rounded.toString() : rounded.toPlainString();
    }

    private static boolean isDate(@Nullable Integer id, String format) {
        String letters =
                format.replaceAll("\"[^\"]*\"|\\\\.|\\[(?!h|m|s)[^\\]]*\\]", "").toLowerCase(Locale.ROOT);
        return (id != null && DATE_FORMATS.contains(id))
                || (!letters.contains("general") && letters.matches(".*[ymdhs].*"));
    }

    private static String date(Cell cell) {
        try {
            LocalDateTime date = cell.asDate();
            return date.toLocalTime().equals(LocalTime.MIDNIGHT)
                    ? date.toLocalDate().toString()
                    : date.toString().replace('T', ' ');
        } catch (ExcelReaderException | DateTimeException e) {
            return cell.getText();
        }
    }

    private void tell(Cell cell, String what) {
        findings.add("cell " + cell.getAddress() + " " + what);
    }
}
