package burnerbridge.mqtt.topic;

import burnerbridge.model.Stamp;
import burnerbridge.mqtt.payload.PermitPayload;
import burnerbridge.mqtt.payload.Telling;
import burnerbridge.site.SitePoint;
import burnerbridge.write.PermitStatus;
import java.util.Optional;
import java.util.function.Supplier;

/** Says who asks for a point that may be written, and for how long that holds. */
final class PermitTeller implements Teller {
    private final String topic;
    private final SitePoint point;
    private final Supplier<Optional<PermitStatus>> status;
    private boolean changed = true;

    PermitTeller(String topic, SitePoint point, Supplier<Optional<PermitStatus>> status) {
        this.topic = topic;
        this.point = point;
        this.status = status;
    }

    void changed() {
        changed = true;
    }

    @Override
    public String topic() {
        return topic;
    }

    @Override
    public Optional<Telling> tell(Stamp now, long sequence) {
        changed = false;
        return status.get().map(present -> PermitPayload.of(point.definition(), present, now, sequence));
    }

    @Override
    public boolean hasNews() {
        return changed;
    }

    @Override
    public boolean canBeProlonged() {
        return true;
    }
}
