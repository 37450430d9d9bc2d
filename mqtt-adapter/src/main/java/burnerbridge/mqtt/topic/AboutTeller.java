package burnerbridge.mqtt.topic;

import burnerbridge.model.Stamp;
import burnerbridge.mqtt.payload.AboutPayload;
import burnerbridge.mqtt.payload.Telling;
import java.util.Optional;

/** Describes a controller, or the bridge, to whoever comes: once for each connection, for as long as it stands. */
final class AboutTeller implements Teller {
    private final String topic;
    private final AboutPayload payload;

    AboutTeller(String topic, AboutPayload payload) {
        this.topic = topic;
        this.payload = payload;
    }

    @Override
    public String topic() {
        return topic;
    }

    @Override
    public Optional<Telling> tell(Stamp now, long sequence) {
        return Optional.of(new Telling(payload.json(now), 0));
    }

    @Override
    public boolean hasNews() {
        return false;
    }

    @Override
    public boolean canBeProlonged() {
        return false;
    }
}
