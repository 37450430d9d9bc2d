package burnerbridge.mqtt.topic;

import burnerbridge.model.Stamp;
import burnerbridge.mqtt.payload.LinkPayload;
import burnerbridge.mqtt.payload.Telling;
import burnerbridge.site.ControllerDefinition;
import burnerbridge.table.ControllerLink;
import burnerbridge.table.ValueTable;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/** Says whether a controller answers. */
final class LinkTeller implements Teller {
    private final String topic;
    private final ControllerDefinition controller;
    private final ValueTable table;
    private @Nullable ControllerLink said;

    LinkTeller(String topic, ControllerDefinition controller, ValueTable table) {
        this.topic = topic;
        this.controller = controller;
        this.table = table;
    }

    @Override
    public String topic() {
        return topic;
    }

    @Override
    public Optional<Telling> tell(Stamp now, long sequence) {
        said = table.link(controller);
        return Optional.of(LinkPayload.controller(said, now, sequence));
    }

    @Override
    public boolean hasNews() {
        return !table.link(controller).equals(said);
    }

    @Override
    public boolean canBeProlonged() {
        return true;
    }
}
