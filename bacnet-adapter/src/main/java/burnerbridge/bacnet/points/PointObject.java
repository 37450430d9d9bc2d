package burnerbridge.bacnet.points;

import burnerbridge.bacnet.cov.CovDesk;
import burnerbridge.bacnet.objects.Reliabilities;
import burnerbridge.bacnet.objects.StatusObject;
import burnerbridge.bacnet.plan.Kinds;
import burnerbridge.bacnet.plan.ObjectChoices;
import burnerbridge.bacnet.plan.ObjectPlan;
import burnerbridge.model.Reading;
import burnerbridge.model.Reason;
import burnerbridge.model.Value;
import burnerbridge.site.PointDefinition;
import com.serotonin.bacnet4j.LocalDevice;
import com.serotonin.bacnet4j.type.Encodable;
import com.serotonin.bacnet4j.type.enumerated.PropertyIdentifier;
import java.util.Optional;

/** An object that shows a point. */
public abstract class PointObject extends StatusObject {
    private final boolean ofStates;

    /** What every object of a point is made of. */
    public record Frame(LocalDevice device, CovDesk desk, ObjectPlan.Served served, ObjectChoices choices) {

        PointDefinition definition() {
            return served.point().definition();
        }
    }

    /** The one for the kind of object that a point has. */
    public static PointObject of(Frame frame) {
        return switch (frame.definition().object()) {
            case ANALOG_INPUT, ANALOG_VALUE -> new AnalogPoint(frame);
            case BINARY_INPUT, BINARY_VALUE -> new BinaryPoint(frame);
            case MULTI_STATE_INPUT, MULTI_STATE_VALUE -> new MultiStatePoint(frame);
            case INTEGER_VALUE, POSITIVE_INTEGER_VALUE -> new IntegerPoint(frame);
            case LARGE_ANALOG_VALUE -> new LargeAnalogPoint(frame);
            case ACCUMULATOR -> new AccumulatorPoint(frame);
            case CHARACTERSTRING_VALUE -> new TextPoint(frame);
            case DATETIME_VALUE -> new DateTimePoint(frame);
            case NONE ->
                throw new IllegalArgumentException(frame.served().point().id() + " has no object");
        };
    }

    PointObject(Frame frame, Encodable meaningless) {
        super(
                frame.device(),
                frame.desk(),
                Kinds.type(frame.definition().object()),
                frame.served().instance(),
                frame.served().name(),
                meaningless);
        this.ofStates = frame.definition().object().isMultiState();
        PointDefinition definition = frame.definition();
        text(
                PropertyIdentifier.description,
                UnitNumbers.described(definition.descriptionWithBasis(), definition.unit()));
    }

    /** Units, for the types that have them. */
    final void units(Frame frame) {
        set(
                PropertyIdentifier.units,
                UnitNumbers.number(frame.definition().unit(), frame.choices().basic()));
    }

    /** A value as this type of object shows it; empty where it cannot. */
    abstract Optional<Encodable> encode(Value value);

    /** Shows a reading. While it has no value the last one stays, with a reliability that says why. */
    public final void apply(Reading reading) {
        Optional<Encodable> value = shownOf(reading).flatMap(this::encode);
        show(value, Reliabilities.of(reasonOf(reading, value.isPresent()), ofStates));
    }

    /** The value of a reading; where it has none that counts, the last good one. */
    private static Optional<Value> shownOf(Reading reading) {
        return hasValue(reading)
                ? Optional.ofNullable(reading.value())
                : reading.newestGood().map(Reading.Good::value);
    }

    private static boolean hasValue(Reading reading) {
        return reading.value() != null && reading.reason() != Reason.NOT_APPLICABLE;
    }

    /** The reason of a reading, unless it has a value that this type of object cannot show. */
    private Reason reasonOf(Reading reading, boolean encoded) {
        if (encoded || !hasValue(reading)) {
            return reading.reason();
        }
        return ofStates ? Reason.UNKNOWN_STATE : Reason.UNREADABLE;
    }
}
