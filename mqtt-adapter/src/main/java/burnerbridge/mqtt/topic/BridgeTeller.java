package burnerbridge.mqtt.topic;

import burnerbridge.model.Stamp;
import burnerbridge.mqtt.payload.LinkPayload;
import burnerbridge.mqtt.payload.Telling;
import java.util.Optional;
import java.util.function.Supplier;
import org.jspecify.annotations.Nullable;

/** Says whether the bridge itself is there. That it was stopped holds until it starts again. */
final class BridgeTeller implements Teller {
    private final String topic;
    private final String startId;
    private final Stamp startedAt;
    private @Nullable Stamp stoppedAt;
    private Supplier<Optional<String>> auditHead = Optional::empty;
    private boolean said;
    private boolean saidStopped;

    BridgeTeller(String topic, String startId, Stamp startedAt) {
        this.topic = topic;
        this.startId = startId;
        this.startedAt = startedAt;
    }

    void publishing(Supplier<Optional<String>> newestRecord) {
        auditHead = newestRecord;
    }

    void stopping(Stamp now) {
        stoppedAt = now;
    }

    @Override
    public String topic() {
        return topic;
    }

    @Override
    public Optional<Telling> tell(Stamp now, long sequence) {
        said = true;
        saidStopped = stoppedAt != null;
        return Optional.of(
                stoppedAt == null
                        ? LinkPayload.bridgeUp(startId, startedAt, auditHead.get(), now, sequence)
                        : LinkPayload.bridgeStopped(startId, stoppedAt, auditHead.get(), now, sequence));
    }

    @Override
    public boolean hasNews() {
        return !said || saidStopped != (stoppedAt != null);
    }

    @Override
    public boolean canBeProlonged() {
        return stoppedAt == null;
    }
}
