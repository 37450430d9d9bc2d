package burnerbridge.site.permit;

import java.math.BigDecimal;
import java.time.Duration;
import java.util.Optional;

/** Who writes a permitted point, and what. */
public sealed interface Purpose {

    /**
     * Others ask for values.
     *
     * @param step the largest change that one write may make, in the point's unit as it is shown; empty: the whole
     *     range
     * @param interval the shortest time between two writes
     * @param mqttPriority the slot that an ask over MQTT takes: 1 to 16, and not 6
     * @param silence what happens when nobody asks any more; empty for a record selection alone
     */
    record Asked(
            Askers from,
            Allowed allowed,
            Optional<BigDecimal> step,
            Duration interval,
            int mqttPriority,
            Optional<Silence> silence)
            implements Purpose {
        public static final int USUAL_MQTT_PRIORITY = 12;
        /** The slots of a point, as a BACnet priority array has them. */
        public static final int LAST_PRIORITY = 16;
        /** Kept by ASHRAE 135, 19.2, for the minimum on and off times (from memory); nobody may ask for it. */
        public static final int KEPT_PRIORITY = 6;
    }

    /** The bridge itself tells a controller that it is there. */
    record Beat(Duration every, Pattern pattern) implements Purpose {}

    /** What a heartbeat writes, one after the other. */
    sealed interface Pattern {
        /** 0, 1, … up to a limit, and 0 again. */
        record Count(int limit) implements Pattern {
            public Count {
                if (limit < 1 || limit > 0xFFFF) {
                    throw new IllegalArgumentException("a count runs up to 1 to 65535 (was " + limit + ")");
                }
            }
        }

        /** 0 and 1 in turn. */
        record Toggle() implements Pattern {}
    }
}
