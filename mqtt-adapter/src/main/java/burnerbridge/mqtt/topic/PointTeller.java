package burnerbridge.mqtt.topic;

import burnerbridge.model.Reading;
import burnerbridge.model.Stamp;
import burnerbridge.mqtt.payload.PointPayload;
import burnerbridge.mqtt.payload.Telling;
import burnerbridge.site.SitePoint;
import burnerbridge.table.ValueTable;
import java.util.Objects;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/** Says the newest reading of a point. */
final class PointTeller implements Teller {
    private final String topic;
    private final SitePoint point;
    private final ValueTable table;
    private @Nullable Reading said;

    PointTeller(String topic, SitePoint point, ValueTable table) {
        this.topic = topic;
        this.point = point;
        this.table = table;
    }

    @Override
    public String topic() {
        return topic;
    }

    @Override
    public Optional<Telling> tell(Stamp now, long sequence) {
        Reading reading = table.reading(point);
        Stamp made = notBefore(reading, now);
        long validFor = Validity.seconds(reading, point.definition().staleAfter(), made.ticks());
        if (validFor == 0) {
            return Optional.empty();
        }
        said = reading;
        return Optional.of(
                new Telling(PointPayload.of(point.definition(), reading, made, validFor, sequence), validFor));
    }

    /** The line's thread may have asked and been answered since the sender looked at the clock. */
    private static Stamp notBefore(Reading reading, Stamp now) {
        Stamp asked = reading.askedAt();
        return asked != null && asked.ageAt(now.ticks()) < 0 ? asked : now;
    }

    /** A value within the dead band is no news; another quality, reason or exception code always is. */
    @Override
    public boolean hasNews() {
        Reading reading = table.reading(point);
        return said == null
                || said.reason() != reading.reason()
                || said.exceptionCode() != reading.exceptionCode()
                || DeadBand.isLeft(
                        said.value(), reading.value(), point.definition().change());
    }

    /** A reading that grows old holds no longer for being sent again: it takes a newer one. */
    @Override
    public boolean canBeProlonged() {
        Reading reading = table.reading(point);
        return said == null || !Validity.growsOld(reading) || !Objects.equals(said.askedAt(), reading.askedAt());
    }
}
