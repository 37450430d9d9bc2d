package burnerbridge.decode;

import burnerbridge.model.DateTimeValue;
import burnerbridge.model.Registers;
import burnerbridge.site.PointFormat.Calendar;
import burnerbridge.site.PointFormat.CalendarField;
import burnerbridge.site.PointFormat.Epoch32;
import java.time.DateTimeException;
import java.time.Instant;
import java.time.LocalDateTime;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalLong;

/** Reads dates and times; an impossible one is empty. */
final class Calendars {
    /** Two-digit years are of this century. */
    private static final int CENTURY = 2000;

    private Calendars() {}

    static Optional<DateTimeValue> epoch(Epoch32 format, Registers raw) {
        Instant instant = Instant.ofEpochSecond(Words.join(raw, format.order()));
        return Optional.of(new DateTimeValue(LocalDateTime.ofInstant(instant, format.zone())));
    }

    static Optional<DateTimeValue> fields(Calendar format, Registers raw) {
        Map<CalendarField, Integer> fields = new EnumMap<>(CalendarField.class);
        for (int i = 0; i < raw.count(); i++) {
            if (!take(format.registers().get(i), raw.word(i), format.bcd(), fields)) {
                return Optional.empty();
            }
        }
        return dateTime(fields);
    }

    private static boolean take(List<CalendarField> parts, int word, boolean bcd, Map<CalendarField, Integer> fields) {
        if (parts.size() == 1) {
            return put(parts.get(0), word, 4, bcd, fields);
        }
        return put(parts.get(0), word >> 8, 2, bcd, fields) && put(parts.get(1), word & 0xFF, 2, bcd, fields);
    }

    private static boolean put(
            CalendarField field, int bits, int digits, boolean bcd, Map<CalendarField, Integer> fields) {
        if (field == CalendarField.OTHER) {
            return true;
        }
        OptionalLong number = bcd ? BcdDigits.read(bits, digits) : OptionalLong.of(bits);
        number.ifPresent(value -> fields.put(field, (int) value));
        return number.isPresent();
    }

    private static Optional<DateTimeValue> dateTime(Map<CalendarField, Integer> fields) {
        int year = fields.getOrDefault(CalendarField.YEAR, 0);
        try {
            return Optional.of(new DateTimeValue(LocalDateTime.of(
                    year < 100 ? CENTURY + year : year,
                    fields.getOrDefault(CalendarField.MONTH, 1),
                    fields.getOrDefault(CalendarField.DAY, 1),
                    fields.getOrDefault(CalendarField.HOUR, 0),
                    fields.getOrDefault(CalendarField.MINUTE, 0),
                    fields.getOrDefault(CalendarField.SECOND, 0))));
        } catch (DateTimeException impossible) {
            return Optional.empty();
        }
    }
}
