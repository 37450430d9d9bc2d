package burnerbridge.daemon;

import burnerbridge.model.RealValue;
import burnerbridge.model.StateValue;
import burnerbridge.model.Value;
import burnerbridge.site.PointDefinition;
import burnerbridge.site.PointId;
import burnerbridge.site.Site;
import burnerbridge.site.permit.WritePermit;
import burnerbridge.values.AskedFor;
import burnerbridge.values.PointRow;
import burnerbridge.write.Gatehouse;
import burnerbridge.write.PermitStatus;
import java.math.BigDecimal;
import java.time.Duration;
import java.util.HashMap;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.Set;
import java.util.stream.Collectors;

/** Who asks for what, as the gate of a running bridge knows it. For any thread. */
final class AskedPermits implements AskedFor.Source {
    private final Gatehouse gatehouse;
    private final Map<PointId, PointDefinition> rows = new HashMap<>();

    AskedPermits(Gatehouse gatehouse, Site site) {
        this.gatehouse = gatehouse;
        Set<PointId> permitted = site.permits().stream().map(WritePermit::point).collect(Collectors.toSet());
        if (!permitted.isEmpty()) {
            site.points().stream()
                    .filter(point -> permitted.contains(point.id()))
                    .forEach(point -> rows.put(point.id(), point.definition()));
        }
    }

    @Override
    public Optional<AskedFor> of(PointId point) {
        PointDefinition row = rows.get(point);
        return row == null ? Optional.empty() : gatehouse.status(point).map(status -> of(row, status));
    }

    private AskedFor of(PointDefinition row, PermitStatus status) {
        Optional<PermitStatus.Held> winner = status.winner();
        OptionalLong left = winner.isPresent() ? winner.get().left() : OptionalLong.empty();
        AskedFor.State state = state(status);
        return new AskedFor(
                state,
                winner.map(PermitStatus.Held::slot).orElse(0),
                winner.map(held -> shown(row, held.value())).orElse(null),
                winner.map(held -> held.source().text()).orElse(""),
                left.isPresent() ? Duration.ofNanos(left.getAsLong()) : null,
                why(state, status),
                Duration.ofNanos(status.untilNextWrite()),
                status.budget().isPresent()
                        ? OptionalLong.of(Math.max(0, status.budget().getAsLong() - status.spent()))
                        : OptionalLong.empty());
    }

    private AskedFor.State state(PermitStatus status) {
        if (!status.asleep().isEmpty()) {
            return AskedFor.State.ASLEEP;
        }
        if (!gatehouse.isApproved()) {
            return AskedFor.State.NOT_APPROVED;
        }
        if (status.winner().isEmpty()) {
            return AskedFor.State.NOBODY;
        }
        return !status.held().isEmpty()
                ? AskedFor.State.WAITS
                : status.failed().isEmpty() ? AskedFor.State.STANDS : AskedFor.State.FAILED;
    }

    private String why(AskedFor.State state, PermitStatus status) {
        return switch (state) {
            case ASLEEP -> status.asleep();
            case NOT_APPROVED -> gatehouse.whyNotApproved();
            case WAITS -> status.held();
            case FAILED -> status.failed();
            case STANDS, NOBODY -> "";
        };
    }

    private static PointRow.Shown shown(PointDefinition row, BigDecimal number) {
        boolean isState = !row.states().isEmpty() && number.stripTrailingZeros().scale() <= 0;
        Value value = isState
                ? new StateValue(
                        number.longValueExact(),
                        row.states().text(number.longValueExact()).orElse(null))
                : new RealValue(number, Math.max(0, number.scale()));
        return AskedFor.shown(value, row.states());
    }
}
