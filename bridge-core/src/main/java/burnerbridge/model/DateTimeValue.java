package burnerbridge.model;

import java.time.LocalDateTime;

/** A date and time of the controller's own clock, in the site's time zone. */
public record DateTimeValue(LocalDateTime dateTime) implements Value {

    @Override
    public String text() {
        return dateTime.toString();
    }
}
