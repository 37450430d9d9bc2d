package burnerbridge.write;

import burnerbridge.model.Reading;
import burnerbridge.model.RealValue;
import burnerbridge.model.Stamp;
import burnerbridge.model.Value;
import burnerbridge.site.ControllerDefinition;
import burnerbridge.site.PointId;
import burnerbridge.table.ControllerLink;
import burnerbridge.table.ValueTable;
import burnerbridge.write.ask.Source;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;

/** What the questions are answered from. It belongs to the gate's monitor. */
final class GateKnowledge implements Interrogation.Knowledge {
    private final Map<PointId, PointState> states;
    private final Openness openness;
    private final GateKeeping keeping;
    private final Identities identities;
    private final ValueTable table;

    /** @param states of all permitted points, which the gate changes */
    GateKnowledge(
            Map<PointId, PointState> states,
            Openness openness,
            GateKeeping keeping,
            Identities identities,
            ValueTable table) {
        this.states = states;
        this.openness = openness;
        this.keeping = keeping;
        this.identities = identities;
        this.table = table;
    }

    private PointState state(Permitted permitted) {
        return Objects.requireNonNull(states.get(permitted.id()));
    }

    @Override
    public Optional<String> notApproved(Permitted permitted, Source source) {
        return openness.objection(state(permitted), source);
    }

    @Override
    public Optional<Value> present(Permitted permitted) {
        PointState state = state(permitted);
        Reading reading = table.reading(permitted.point());
        Stamp askedAt = reading.askedAt();
        boolean newer = askedAt != null && askedAt.ticks() - state.endedAt >= 0;
        if (reading.isGood() && (newer || !state.everSent)) {
            return Optional.ofNullable(reading.value());
        }
        return Optional.ofNullable(state.everSent ? state.readBack : null)
                .map(value -> new RealValue(value, Math.max(0, value.scale())));
    }

    /** The newest reading of a point that was asked for since its controller answers; empty where there is none. */
    Optional<Reading> readingSinceUp(Permitted permitted) {
        ControllerLink link = link(permitted);
        Stamp since = link.since();
        Reading reading = table.reading(permitted.point());
        Stamp askedAt = reading.askedAt();
        return link.state() == ControllerLink.State.UP
                        && since != null
                        && askedAt != null
                        && askedAt.ticks() - since.ticks() >= 0
                ? Optional.of(reading)
                : Optional.empty();
    }

    @Override
    public long sentAt(Permitted permitted) {
        return state(permitted).sentAt;
    }

    @Override
    public long spent(PointId point) {
        return keeping.spent(point);
    }

    @Override
    public Optional<String> notIdentified(Permitted permitted) {
        ControllerDefinition controller = permitted.controller();
        Optional<String> approved = openness.authority().identity(controller);
        Optional<String> here = identities.of(controller);
        if (approved.isEmpty() || here.isEmpty()) {
            return Optional.of("which controller answers as " + controller.name() + " is not known yet");
        }
        if (!approved.equals(here)) {
            return Optional.of(
                    controller.name() + " is " + here.get() + " now, and " + approved.get() + " was approved");
        }
        return identities
                .sameAs(controller)
                .map(other -> controller.name() + " and " + other.name() + " both say that they are " + here.get());
    }

    @Override
    public ControllerLink link(Permitted permitted) {
        return table.link(permitted.controller());
    }

    @Override
    public Optional<String> noRecord() {
        return keeping.trouble();
    }
}
