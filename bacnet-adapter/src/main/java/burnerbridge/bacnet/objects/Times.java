package burnerbridge.bacnet.objects;

import com.serotonin.bacnet4j.enums.DayOfWeek;
import com.serotonin.bacnet4j.enums.Month;
import com.serotonin.bacnet4j.type.primitive.Date;
import com.serotonin.bacnet4j.type.primitive.Time;
import java.time.LocalDate;
import java.time.LocalTime;
import java.util.Optional;

/** Dates and times in the forms of ASHRAE 135, 20.2.12 and 20.2.13. */
public final class Times {
    private static final int FIRST_YEAR = 1900;
    /** 255 stands for any year. */
    private static final int LAST_YEAR = 2154;

    private static final int NANOS_OF_A_HUNDREDTH = 10_000_000;

    private Times() {}

    /** Empty where the year cannot be written. */
    public static Optional<Date> date(LocalDate date) {
        if (date.getYear() < FIRST_YEAR || date.getYear() > LAST_YEAR) {
            return Optional.empty();
        }
        return Optional.of(new Date(
                date.getYear(),
                Month.valueOf((byte) date.getMonthValue()),
                date.getDayOfMonth(),
                DayOfWeek.valueOf((byte) date.getDayOfWeek().getValue())));
    }

    public static Time time(LocalTime time) {
        return new Time(time.getHour(), time.getMinute(), time.getSecond(), time.getNano() / NANOS_OF_A_HUNDREDTH);
    }
}
