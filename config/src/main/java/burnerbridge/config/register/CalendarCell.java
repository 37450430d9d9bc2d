package burnerbridge.config.register;

import burnerbridge.config.row.PointRow;
import burnerbridge.site.PointFormat;
import burnerbridge.site.PointFormat.CalendarField;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;

/**
 * Reads the fields of {@code datetime:y-m-d-h-n-s}: a part for each register, one letter for what the
 * whole register holds or two for its upper and lower byte, {@code +bcd} behind.
 */
final class CalendarCell {
    private static final String ALLOWED =
            "a part for each register, joined by -: y m d h n s for year, month, day, hour, minute, second, x for"
                    + " what is not looked at, two letters for the two bytes of a register, and +bcd behind where the"
                    + " fields are BCD, like datetime:y-md-hn-sx";
    private static final String BCD = "+bcd";

    private CalendarCell() {}

    static Optional<PointFormat> read(PointRow row, String text, String argument) {
        boolean bcd = argument.endsWith(BCD);
        String fields = bcd ? argument.substring(0, argument.length() - BCD.length()) : argument;
        List<List<CalendarField>> registers = new ArrayList<>();
        Set<CalendarField> seen = EnumSet.noneOf(CalendarField.class);
        boolean sound = fields.matches("[ymdhnsx]{1,2}(-[ymdhnsx]{1,2})*");
        for (String part : sound ? fields.split("-") : new String[0]) {
            List<CalendarField> register = new ArrayList<>();
            for (char letter : part.toCharArray()) {
                CalendarField field = field(letter);
                sound &= field == CalendarField.OTHER || seen.add(field);
                register.add(field);
            }
            registers.add(register);
        }
        Set<CalendarField> date = EnumSet.of(CalendarField.YEAR, CalendarField.MONTH, CalendarField.DAY);
        if (!sound || !seen.containsAll(date)) {
            row.error("format", "must hold year, month and day once each: " + ALLOWED + " (was '" + text + "')");
            return Optional.empty();
        }
        return Optional.of(new PointFormat.Calendar(registers, bcd, text));
    }

    private static CalendarField field(char letter) {
        for (CalendarField field : CalendarField.values()) {
            if (field.letter() == letter) {
                return field;
            }
        }
        throw new IllegalArgumentException("no field has the letter " + letter);
    }
}
