package burnerbridge.bacnet.points;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.bacnet.Plant;
import burnerbridge.bacnet.cov.CovDesk;
import burnerbridge.bacnet.cov.CovLimits;
import burnerbridge.bacnet.cov.Post;
import burnerbridge.bacnet.exchange.NamelessNetwork;
import burnerbridge.bacnet.plan.ObjectChoices;
import burnerbridge.bacnet.plan.ObjectPlan;
import burnerbridge.model.BitValue;
import burnerbridge.model.HandClock;
import burnerbridge.model.IntegerValue;
import burnerbridge.model.Reading;
import burnerbridge.model.RealValue;
import burnerbridge.model.Reason;
import burnerbridge.model.Registers;
import burnerbridge.model.Stamp;
import burnerbridge.model.StateValue;
import burnerbridge.model.TextValue;
import burnerbridge.model.Value;
import burnerbridge.site.Name;
import burnerbridge.site.StateNumbers;
import com.serotonin.bacnet4j.LocalDevice;
import com.serotonin.bacnet4j.service.confirmed.ConfirmedRequestService;
import com.serotonin.bacnet4j.service.unconfirmed.UnconfirmedRequestService;
import com.serotonin.bacnet4j.transport.DefaultTransport;
import com.serotonin.bacnet4j.type.Encodable;
import com.serotonin.bacnet4j.type.constructed.Address;
import com.serotonin.bacnet4j.type.constructed.StatusFlags;
import com.serotonin.bacnet4j.type.enumerated.BinaryPV;
import com.serotonin.bacnet4j.type.enumerated.EventState;
import com.serotonin.bacnet4j.type.enumerated.PropertyIdentifier;
import com.serotonin.bacnet4j.type.enumerated.Reliability;
import com.serotonin.bacnet4j.type.primitive.Boolean;
import com.serotonin.bacnet4j.type.primitive.OctetString;
import com.serotonin.bacnet4j.type.primitive.Real;
import com.serotonin.bacnet4j.type.primitive.UnsignedInteger;
import com.serotonin.bacnet4j.util.sero.ByteQueue;
import java.math.BigInteger;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.function.Consumer;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** What an object shows of a reading, by the one table of qualities. */
final class PointObjectTest {
    private final HandClock clock = new HandClock();
    private final Plant plant = new Plant(clock);
    private final LocalDevice device = new LocalDevice(Plant.DEVICE, new DefaultTransport(new Nobody()));
    private final CovDesk desk = new CovDesk(device.getId(), new NoPost(), clock, CovLimits.USUAL);
    private final Stamp asked = clock.now();
    private final Registers raw = Registers.of(1);

    private static final class Nobody extends NamelessNetwork {
        @Override
        public void sendNPDU(
                Address to, @Nullable OctetString router, ByteQueue npdu, boolean broadcast, boolean expectsReply) {}
    }

    private static final class NoPost implements Post {
        @Override
        public void tell(Address to, UnconfirmedRequestService notification) {}

        @Override
        public void ask(Address to, ConfirmedRequestService notification, Consumer<Reply> done) {}
    }

    private PointObject.Frame served(String point) {
        return served(
                point,
                plant.site
                        .bindings()
                        .of(Plant.TYPE, new Name(point))
                        .orElseThrow()
                        .states());
    }

    private PointObject.Frame served(String point, StateNumbers states) {
        return new PointObject.Frame(
                device, desk, new ObjectPlan.Served(plant.point(point), 1, states, point), ObjectChoices.USUAL);
    }

    private static Encodable of(PointObject object, PropertyIdentifier property) {
        Encodable value = object.get(property);
        return Objects.requireNonNull(value, () -> object + " has no " + property);
    }

    private static int reliability(PointObject object) {
        return ((Reliability) of(object, PropertyIdentifier.reliability)).intValue();
    }

    private static boolean isFaulty(PointObject object) {
        StatusFlags flags = (StatusFlags) of(object, PropertyIdentifier.statusFlags);
        assertThat(flags.isInAlarm() || flags.isOverridden() || flags.isOutOfService())
                .isFalse();
        return flags.isFault();
    }

    private Reading good(Value value) {
        return Reading.good(value, asked, raw);
    }

    private Reading after(Reading before, Reason reason) {
        return switch (reason.quality()) {
            case GOOD -> before;
            case STALE -> before.staled(reason);
            case UNCERTAIN -> Reading.uncertain(new RealValue(9, 0), reason, asked, raw, before);
            case BAD ->
                switch (reason) {
                    case NOT_READ_YET -> Reading.notReadYet();
                    case REFUSED -> Reading.refused(2, asked, before);
                    default -> Reading.bad(reason, asked, raw, before);
                };
        };
    }

    @ParameterizedTest
    @CsvSource({
        "NONE, 0, 41.5",
        "UNKNOWN_STATE, 0, 9",
        "NOT_APPLICABLE, 0, 41.5",
        "NO_REPLY, 12, 41.5",
        "LINE_DOWN, 12, 41.5",
        "NOT_READ_YET, 7, 41.5",
        "REFUSED, 10, 41.5",
        "NO_SENSOR, 1, 41.5",
        "OVER_RANGE, 2, 41.5",
        "UNDER_RANGE, 3, 41.5",
        "NOT_A_NUMBER, 7, 41.5",
        "UNREADABLE, 7, 41.5",
    })
    void anAnalogObjectShowsTheQualityAndKeepsTheLastValue(Reason reason, int reliability, float value) {
        AnalogPoint object = new AnalogPoint(served("flue-temperature"));
        Reading good = good(new RealValue(41.5, 1));
        object.apply(good);
        object.apply(after(good, reason));
        assertThat(reliability(object)).isEqualTo(reliability);
        assertThat(isFaulty(object)).isEqualTo(reliability != 0);
        assertThat(of(object, PropertyIdentifier.presentValue)).isEqualTo(new Real(value));
        assertThat(of(object, PropertyIdentifier.outOfService)).isEqualTo(Boolean.FALSE);
        assertThat(of(object, PropertyIdentifier.eventState)).isEqualTo(EventState.normal);
    }

    @Test
    void anObjectBeginsWithAValueThatItCallsUnreliable() {
        PointObject[] objects = {
            new AnalogPoint(served("fuel")), new BinaryPoint(served("flame")), new MultiStatePoint(served("phase")),
        };
        Encodable[] values = {new Real(0), BinaryPV.inactive, new UnsignedInteger(1)};
        for (int i = 0; i < objects.length; i++) {
            assertThat(of(objects[i], PropertyIdentifier.presentValue)).isEqualTo(values[i]);
            assertThat(reliability(objects[i])).isEqualTo(7);
            assertThat(isFaulty(objects[i])).isTrue();
            objects[i].apply(Reading.notReadYet());
            assertThat(reliability(objects[i])).isEqualTo(7);
        }
    }

    @Test
    void aStaleReadingFirstSeenShowsItsLastGoodValue() {
        AnalogPoint object = new AnalogPoint(served("fuel"));
        object.apply(good(new IntegerValue(BigInteger.TEN)).staled(Reason.LINE_DOWN));
        assertThat(of(object, PropertyIdentifier.presentValue)).isEqualTo(new Real(10));
        assertThat(reliability(object)).isEqualTo(12);
    }

    @Test
    void statesHaveTheNumbersOfTheBindings() {
        Map<Long, Integer> given = new LinkedHashMap<>();
        given.put(50L, 1);
        given.put(7L, 2);
        given.put(0L, 3);
        MultiStatePoint object = new MultiStatePoint(served("phase", new StateNumbers(given)));
        object.apply(good(new StateValue(50, "run")));
        assertThat(of(object, PropertyIdentifier.presentValue)).isEqualTo(new UnsignedInteger(1));
        assertThat(reliability(object)).isZero();
        assertThat(of(object, PropertyIdentifier.numberOfStates)).isEqualTo(new UnsignedInteger(3));
        assertThat(of(object, PropertyIdentifier.stateText).toString()).contains("run, not used (7), standby");
    }

    @Test
    void aStateWithATextButWithoutANumberIsAFaultUntilItIsBound() {
        StateNumbers given = new StateNumbers(Map.of(0L, 1));
        MultiStatePoint object = new MultiStatePoint(served("phase", given));
        object.apply(good(new StateValue(0, "standby")));
        object.apply(good(new StateValue(50, "run")));
        assertThat(of(object, PropertyIdentifier.presentValue)).isEqualTo(new UnsignedInteger(1));
        assertThat(reliability(object)).isEqualTo(25);
        assertThat(isFaulty(object)).isTrue();
    }

    @Test
    void aStateWithoutATextKeepsTheLastStateAndIsAFault() {
        MultiStatePoint object = new MultiStatePoint(served("phase"));
        Reading run = good(new StateValue(50, "run"));
        object.apply(run);
        object.apply(Reading.uncertain(new StateValue(7, null), Reason.UNKNOWN_STATE, asked, raw, run));
        assertThat(of(object, PropertyIdentifier.presentValue)).isEqualTo(new UnsignedInteger(4));
        assertThat(reliability(object)).isEqualTo(25);
        assertThat(isFaulty(object)).isTrue();
    }

    @Test
    void bitsAreActiveOrInactive() {
        BinaryPoint object = new BinaryPoint(served("flame"));
        object.apply(good(new BitValue(true)));
        assertThat(of(object, PropertyIdentifier.presentValue)).isEqualTo(BinaryPV.active);
        object.apply(good(new StateValue(0, "off")));
        assertThat(of(object, PropertyIdentifier.presentValue)).isEqualTo(BinaryPV.inactive);
        object.apply(good(new StateValue(2, "half")));
        assertThat(reliability(object)).isEqualTo(7);
    }

    @Test
    void aValueThatTheTypeCannotShowIsUnreliableAndKeepsTheLast() {
        AnalogPoint object = new AnalogPoint(served("fuel"));
        object.apply(good(new RealValue(5, 0)));
        for (Value value : List.of(new TextValue("A1"), new RealValue(1e300, 0))) {
            object.apply(good(value));
            assertThat(reliability(object)).isEqualTo(7);
            assertThat(of(object, PropertyIdentifier.presentValue)).isEqualTo(new Real(5));
        }
    }

    @Test
    void atNoMomentAnOldValueLooksGood() {
        AnalogPoint object = new AnalogPoint(served("fuel"));
        Reading old = good(new RealValue(5, 0));
        object.apply(old);
        object.apply(old.staled(Reason.NO_REPLY));
        List<String> seen = new ArrayList<>();
        object.addListener((property, before, after) ->
                seen.add(object.get(PropertyIdentifier.presentValue) + " " + (isFaulty(object) ? "fault" : "good")));
        object.apply(good(new RealValue(6, 0)));
        assertThat(seen).isNotEmpty().doesNotContain("5.0 good").last().isEqualTo("6.0 good");
        seen.clear();
        object.apply(good(new RealValue(7, 0)).staled(Reason.NO_REPLY));
        assertThat(seen).isNotEmpty().doesNotContain("7.0 good").last().isEqualTo("7.0 fault");
    }

    @Test
    void theCovIncrementIsTheRowsChange() {
        AnalogPoint object = new AnalogPoint(served("oxygen"));
        assertThat(of(object, PropertyIdentifier.covIncrement)).isEqualTo(new Real(0.5f));
    }
}
