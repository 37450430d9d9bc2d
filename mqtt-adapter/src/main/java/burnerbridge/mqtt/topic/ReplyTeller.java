package burnerbridge.mqtt.topic;

import burnerbridge.model.Stamp;
import burnerbridge.mqtt.broker.Octets;
import burnerbridge.mqtt.payload.Telling;
import java.util.Optional;

/**
 * Says once what became of an ask.
 *
 * @param lifeSeconds for how long anybody may wait for it
 */
public record ReplyTeller(String topic, String payload, Octets correlation, long lifeSeconds) implements Teller {

    @Override
    public Optional<Telling> tell(Stamp now, long sequence) {
        return Optional.of(new Telling(payload, lifeSeconds));
    }

    @Override
    public boolean hasNews() {
        return false;
    }

    @Override
    public boolean canBeProlonged() {
        return false;
    }

    @Override
    public boolean isRetained() {
        return false;
    }
}
