package burnerbridge.site.permit;

import java.math.BigDecimal;
import java.time.Duration;

/**
 * What happens when nobody asks any more.
 *
 * @param after how long an ask holds by itself; an equal one begins it anew
 */
public record Silence(Duration after, Action action) {

    public sealed interface Action {
        /**
         * A value is written.
         *
         * @param value in the point's unit as it is shown; a state's number; 0 or 1 of a bit
         */
        record Write(BigDecimal value) implements Action {}

        /** Nothing is written: the controller lets the demand go by itself, as its type's watchdog says. */
        record Release() implements Action {}
    }
}
