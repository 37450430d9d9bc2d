package burnerbridge.bacnet.device;

import burnerbridge.bacnet.objects.Times;
import burnerbridge.model.BridgeClock;
import com.serotonin.bacnet4j.type.primitive.Boolean;
import com.serotonin.bacnet4j.type.primitive.Date;
import com.serotonin.bacnet4j.type.primitive.SignedInteger;
import com.serotonin.bacnet4j.type.primitive.Time;
import java.time.Instant;
import java.time.ZoneId;

/** What the device says of the time (ASHRAE 135, 12.11.24 to 12.11.27): that of the site's zone. */
final class LocalTimes {
    private static final int SECONDS_OF_A_MINUTE = 60;

    private final BridgeClock clock;
    private final ZoneId zone;

    LocalTimes(BridgeClock clock, ZoneId zone) {
        this.clock = clock;
        this.zone = zone;
    }

    private Instant now() {
        return clock.now().wall();
    }

    Date date() {
        return Times.date(now().atZone(zone).toLocalDate()).orElse(Date.UNSPECIFIED);
    }

    Time time() {
        return Times.time(now().atZone(zone).toLocalTime());
    }

    /** Minutes from local standard time to universal time, so positive west of Greenwich. */
    SignedInteger utcOffset() {
        return new SignedInteger(-zone.getRules().getStandardOffset(now()).getTotalSeconds() / SECONDS_OF_A_MINUTE);
    }

    Boolean daylightSavings() {
        return Boolean.valueOf(zone.getRules().isDaylightSavings(now()));
    }
}
