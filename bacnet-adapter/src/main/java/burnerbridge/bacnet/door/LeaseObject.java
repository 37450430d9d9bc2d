package burnerbridge.bacnet.door;

import burnerbridge.bacnet.cov.CovDesk;
import burnerbridge.bacnet.objects.StatusObject;
import burnerbridge.bacnet.plan.ObjectPlan;
import burnerbridge.site.PointId;
import burnerbridge.site.permit.Silence;
import burnerbridge.write.PermitStatus;
import com.serotonin.bacnet4j.LocalDevice;
import com.serotonin.bacnet4j.type.Encodable;
import com.serotonin.bacnet4j.type.constructed.StatusFlags;
import com.serotonin.bacnet4j.type.enumerated.EngineeringUnits;
import com.serotonin.bacnet4j.type.enumerated.ObjectType;
import com.serotonin.bacnet4j.type.enumerated.PropertyIdentifier;
import com.serotonin.bacnet4j.type.enumerated.Reliability;
import com.serotonin.bacnet4j.type.primitive.Real;
import java.time.Duration;
import java.util.Optional;
import java.util.OptionalDouble;
import org.jspecify.annotations.Nullable;

/**
 * How many whole seconds the winner of a permitted point still holds, unless it is asked for again; 0 where nobody asks. It
 * runs down, and its subscribers are told each tenth of the lease, and at least each ten seconds.
 */
final class LeaseObject extends StatusObject {
    private static final int PRESENT_VALUE = 85;
    private static final int STATUS_FLAGS = 111;
    private static final int RELIABILITY = 103;
    private static final long SECOND = 1_000_000_000L;
    private static final double MOST = 10;

    private final PointId point;
    private final Gate gate;
    private final CovDesk desk;
    private final float tellingChange;

    LeaseObject(LocalDevice device, CovDesk desk, ObjectPlan.Asked asked, ObjectPlan.Lease lease, Gate gate) {
        super(device, desk, ObjectType.analogValue, lease.instance(), lease.name(), new Real(0));
        this.point = asked.point().id();
        this.gate = gate;
        this.desk = desk;
        Duration time = asked.terms().silence().map(Silence::after).orElse(Duration.ZERO);
        this.tellingChange = (float) Math.max(1, Math.min(MOST, time.toSeconds() / 10.0));
        text(PropertyIdentifier.description, "Seconds that " + asked.name() + " holds unless it is asked for again");
        set(PropertyIdentifier.units, EngineeringUnits.seconds);
        set(PropertyIdentifier.covIncrement, new Real(tellingChange));
    }

    @Override
    public OptionalDouble tellingChange() {
        return OptionalDouble.of(tellingChange);
    }

    void tell() {
        desk.changed(this);
    }

    @Override
    public @Nullable Encodable held(PropertyIdentifier property) {
        return switch (property.intValue()) {
            case PRESENT_VALUE -> new Real(secondsLeft(gate.status(point)));
            case STATUS_FLAGS -> new StatusFlags(false, gate.status(point).isEmpty(), false, false);
            case RELIABILITY ->
                gate.status(point).isEmpty() ? Reliability.unreliableOther : Reliability.noFaultDetected;
            default -> super.held(property);
        };
    }

    /** Rounded up, so that it is 0 only when it is over. */
    private static float secondsLeft(Optional<PermitStatus> status) {
        return status.flatMap(PermitStatus::winner)
                .filter(held -> held.left().isPresent())
                .map(held -> (held.left().getAsLong() + SECOND - 1) / SECOND)
                .orElse(0L);
    }
}
