package burnerbridge.mqtt.topic;

import burnerbridge.model.Stamp;
import burnerbridge.mqtt.payload.Telling;
import java.util.Optional;

/** Makes a broker forget what it retained of a topic that is no more (MQTT 5.0, 3.3.1.3; 3.1.1, 3.3.1.3). */
record Forgetting(String topic) implements Teller {

    @Override
    public Optional<Telling> tell(Stamp now, long sequence) {
        return Optional.of(new Telling("", 0));
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
