package burnerbridge.bacnet.points;

import burnerbridge.bacnet.objects.Times;
import burnerbridge.model.DateTimeValue;
import burnerbridge.model.Value;
import com.serotonin.bacnet4j.type.Encodable;
import com.serotonin.bacnet4j.type.constructed.DateTime;
import java.util.Optional;

/** A date and time of a controller's clock, in the site's time, as a DateTime Value (ASHRAE 135, 12.40). */
final class DateTimePoint extends PointObject {

    DateTimePoint(Frame frame) {
        super(frame, DateTime.UNSPECIFIED);
    }

    @Override
    Optional<Encodable> encode(Value value) {
        return value instanceof DateTimeValue time
                ? Times.date(time.dateTime().toLocalDate())
                        .map(date ->
                                new DateTime(date, Times.time(time.dateTime().toLocalTime())))
                : Optional.empty();
    }
}
