package burnerbridge.bacnet.door;

import burnerbridge.bacnet.cov.CovDesk;
import burnerbridge.bacnet.objects.Reliabilities;
import burnerbridge.bacnet.objects.StatusObject;
import burnerbridge.bacnet.plan.Kinds;
import burnerbridge.bacnet.plan.ObjectChoices;
import burnerbridge.bacnet.plan.ObjectPlan;
import burnerbridge.bacnet.points.UnitNumbers;
import burnerbridge.model.Reason;
import burnerbridge.site.PointDefinition;
import burnerbridge.site.States;
import burnerbridge.site.permit.Allowed;
import burnerbridge.site.permit.Purpose;
import burnerbridge.site.permit.Silence;
import burnerbridge.table.ControllerLink;
import burnerbridge.write.PermitStatus;
import burnerbridge.write.ask.Ask;
import com.serotonin.bacnet4j.LocalDevice;
import com.serotonin.bacnet4j.type.Encodable;
import com.serotonin.bacnet4j.type.constructed.BACnetArray;
import com.serotonin.bacnet4j.type.constructed.PriorityArray;
import com.serotonin.bacnet4j.type.constructed.StatusFlags;
import com.serotonin.bacnet4j.type.constructed.ValueSource;
import com.serotonin.bacnet4j.type.enumerated.PropertyIdentifier;
import com.serotonin.bacnet4j.type.enumerated.Reliability;
import com.serotonin.bacnet4j.type.primitive.CharacterString;
import com.serotonin.bacnet4j.type.primitive.Null;
import com.serotonin.bacnet4j.type.primitive.Real;
import com.serotonin.bacnet4j.type.primitive.UnsignedInteger;
import java.math.BigDecimal;
import java.util.Optional;
import java.util.OptionalDouble;
import org.jspecify.annotations.Nullable;

/**
 * The commandable object of a permitted point (ASHRAE 135, 19.2). What it shows is read from the gate's slots at each read, so
 * that a read after an acknowledgement finds what was acknowledged.
 *
 * <p>Relinquish_Default is shown while nobody asks, and is never sent: it is the value that silence writes, and where silence
 * writes none the lowest that the permit allows.
 */
final class RequestObject extends StatusObject {
    private static final int PRESENT_VALUE = 85;
    private static final int STATUS_FLAGS = 111;
    private static final int RELIABILITY = 103;
    private static final int DESCRIPTION = 28;
    private static final int PRIORITY_ARRAY = 87;
    private static final int CURRENT_COMMAND_PRIORITY = 431;
    private static final int VALUE_SOURCE = 433;
    private static final int VALUE_SOURCE_ARRAY = 434;

    private final ObjectPlan.Asked asked;
    private final Gate gate;
    private final CovDesk desk;
    private final Coding coding;
    private final BigDecimal whenNobodyAsks;
    private final String description;
    private final boolean analog;
    private volatile ControllerLink.State link = ControllerLink.State.UNKNOWN;

    RequestObject(LocalDevice device, CovDesk desk, ObjectPlan.Asked asked, ObjectChoices choices, Gate gate) {
        super(device, desk, Kinds.type(asked.kind()), asked.instance(), asked.name(), Null.instance);
        this.asked = asked;
        this.gate = gate;
        this.desk = desk;
        this.coding = Coding.of(asked.kind(), asked.states());
        this.whenNobodyAsks = whenNobodyAsks(asked.terms());
        PointDefinition row = asked.point().definition();
        this.description = UnitNumbers.described(row.descriptionWithBasis(), row.unit());
        this.analog = coding instanceof Coding.Analog;
        set(PropertyIdentifier.relinquishDefault, coding.shown(whenNobodyAsks).orElse(coding.meaningless()));
        // So that they are in Property_List; what they hold is worked out at each read.
        set(PropertyIdentifier.description, Null.instance);
        set(PropertyIdentifier.priorityArray, Null.instance);
        set(PropertyIdentifier.currentCommandPriority, Null.instance);
        set(PropertyIdentifier.valueSource, Null.instance);
        set(PropertyIdentifier.valueSourceArray, Null.instance);
        if (analog) {
            number(row, choices);
        } else if (coding instanceof Coding.Binary) {
            texts(row.states());
        } else {
            set(
                    PropertyIdentifier.numberOfStates,
                    new UnsignedInteger(asked.states().count()));
            set(
                    PropertyIdentifier.stateText,
                    new BACnetArray<>(asked.states().texts(row.states()).stream()
                            .map(CharacterString::new)
                            .toList()));
        }
    }

    private static BigDecimal whenNobodyAsks(Purpose.Asked terms) {
        if (terms.silence().isPresent() && terms.silence().get().action() instanceof Silence.Action.Write write) {
            return write.value();
        }
        return terms.allowed() instanceof Allowed.Range range
                ? range.low()
                : BigDecimal.valueOf(
                        ((Allowed.States) terms.allowed()).numbers().iterator().next());
    }

    private void number(PointDefinition row, ObjectChoices choices) {
        set(PropertyIdentifier.units, UnitNumbers.number(row.unit(), choices.basic()));
        // Every change of what is asked for is worth telling.
        set(PropertyIdentifier.covIncrement, new Real(0));
        if (asked.terms().allowed() instanceof Allowed.Range range) {
            set(PropertyIdentifier.minPresValue, new Real(range.low().floatValue()));
            set(PropertyIdentifier.maxPresValue, new Real(range.high().floatValue()));
        }
    }

    /** If one of the texts is there, both are (12.8). */
    private void texts(States states) {
        Optional<String> inactive = states.text(0);
        Optional<String> active = states.text(1);
        if (inactive.isPresent() && active.isPresent()) {
            text(PropertyIdentifier.inactiveText, inactive.get());
            text(PropertyIdentifier.activeText, active.get());
        }
    }

    ObjectPlan.Asked asked() {
        return asked;
    }

    Coding coding() {
        return coding;
    }

    @Override
    public OptionalDouble tellingChange() {
        return analog ? OptionalDouble.of(0) : OptionalDouble.empty();
    }

    /** Takes over whether its controller answers. */
    void apply(ControllerLink.State state) {
        link = state;
        tell();
    }

    /** Tells subscribers what is another than they were told. */
    void tell() {
        desk.changed(this);
    }

    @Override
    public @Nullable Encodable held(PropertyIdentifier property) {
        return switch (property.intValue()) {
            case PRESENT_VALUE -> presentValue(status());
            case STATUS_FLAGS -> new StatusFlags(false, !isReliable(), false, false);
            case RELIABILITY -> reliability(status());
            case DESCRIPTION -> new CharacterString(description + ": " + words(status()));
            case PRIORITY_ARRAY -> priorityArray(status());
            case CURRENT_COMMAND_PRIORITY -> priority(status());
            case VALUE_SOURCE -> valueSource(status());
            case VALUE_SOURCE_ARRAY -> valueSources(status());
            default -> super.held(property);
        };
    }

    private Optional<PermitStatus> status() {
        return gate.status(asked.point().id());
    }

    private static Optional<PermitStatus.Held> winner(Optional<PermitStatus> status) {
        return status.flatMap(PermitStatus::winner);
    }

    private Encodable presentValue(Optional<PermitStatus> status) {
        return shown(status).orElse(coding.meaningless());
    }

    private Optional<Encodable> shown(Optional<PermitStatus> status) {
        return coding.shown(winner(status).map(PermitStatus.Held::value).orElse(whenNobodyAsks));
    }

    private boolean isReliable() {
        return reliability(status()).equals(Reliability.noFaultDetected);
    }

    /** What keeps asks from being admitted comes before what keeps the winner from being written. */
    private Reliability reliability(Optional<PermitStatus> status) {
        if (status.isEmpty() || !gate.isApproved() || !status.get().asleep().isEmpty()) {
            return Reliability.configurationError;
        }
        if (link != ControllerLink.State.UP) {
            return Reliability.communicationFailure;
        }
        if (!status.get().failed().isEmpty()) {
            return Reliability.activationFailure;
        }
        if (!status.get().held().isEmpty()) {
            return Reliability.processError;
        }
        // A state that has no multi-state number, as somebody beside BACnet may ask for.
        return Reliabilities.of(shown(status).isPresent() ? Reason.NONE : Reason.UNKNOWN_STATE, true);
    }

    private String words(Optional<PermitStatus> status) {
        String who = winner(status)
                .map(held -> "slot " + held.slot() + ", " + held.source().text())
                .orElse("nobody asks");
        return who + why(status).map(why -> "; " + why).orElse("");
    }

    private Optional<String> why(Optional<PermitStatus> status) {
        if (status.isEmpty()) {
            return Optional.of("the write gate cannot be had");
        }
        if (!gate.isApproved()) {
            return Optional.of("not approved");
        }
        PermitStatus present = status.get();
        if (!present.asleep().isEmpty()) {
            return Optional.of("the permit sleeps");
        }
        if (!present.failed().isEmpty()) {
            return Optional.of("not written: " + present.failed());
        }
        return present.held().isEmpty() ? Optional.empty() : Optional.of("waits: " + present.held());
    }

    private PriorityArray priorityArray(Optional<PermitStatus> status) {
        PriorityArray array = new PriorityArray();
        status.ifPresent(present -> present.slots()
                .forEach(held -> coding.shown(held.value()).ifPresent(value -> array.put(held.slot(), value))));
        return array;
    }

    private static Encodable priority(Optional<PermitStatus> status) {
        return winner(status)
                .<Encodable>map(held -> new UnsignedInteger(held.slot()))
                .orElse(Null.instance);
    }

    private ValueSource valueSource(Optional<PermitStatus> status) {
        return winner(status)
                .map(held -> ValueSources.of(held.source(), getLocalDevice()))
                .orElseGet(ValueSource::new);
    }

    private BACnetArray<ValueSource> valueSources(Optional<PermitStatus> status) {
        BACnetArray<ValueSource> array = new BACnetArray<>(Ask.SLOTS, new ValueSource());
        status.ifPresent(present -> present.slots()
                .forEach(held -> array.setBase1(held.slot(), ValueSources.of(held.source(), getLocalDevice()))));
        return array;
    }
}
