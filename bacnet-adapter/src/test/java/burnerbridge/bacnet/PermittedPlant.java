package burnerbridge.bacnet;

import burnerbridge.model.BridgeClock;
import burnerbridge.site.Bindings;
import burnerbridge.site.Name;
import burnerbridge.site.ObjectKind;
import burnerbridge.site.PointDefinition;
import burnerbridge.site.PointFormat;
import burnerbridge.site.PointId;
import burnerbridge.site.Site;
import burnerbridge.site.StateNumbers;
import burnerbridge.site.States;
import burnerbridge.site.permit.AddressBlock;
import burnerbridge.site.permit.Allowed;
import burnerbridge.site.permit.Askers;
import burnerbridge.site.permit.Purpose;
import burnerbridge.site.permit.Silence;
import burnerbridge.site.permit.Storage;
import burnerbridge.site.permit.WritePermit;
import burnerbridge.site.unit.Unit;
import java.math.BigDecimal;
import java.time.Duration;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;

/**
 * Two boilers with a demand (Analog Input 5), an enable (Binary Input 6), a mode (Multi-state Input 7), a record selection
 * (Analog Input 8) and a heartbeat (Analog Input 9); the first one's may be asked for. Their request objects are 50 to 53,
 * the leases Analog Values 60 to 62.
 */
public final class PermittedPlant {
    public static final PointId DEMAND = id("demand");
    public static final PointId ENABLE = id("enable");
    public static final PointId MODE = id("mode");

    private PermittedPlant() {}

    private static PointId id(String point) {
        return new PointId(new Name("boiler-1"), new Name(point));
    }

    public static Plant plant(BridgeClock clock) {
        return new Plant(clock, ZoneOffset.UTC, points(), new Bindings(bindings()));
    }

    /** All permits. */
    public static Site permitted(Plant plant) {
        return plant.site.with(permits());
    }

    private static List<PointDefinition> points() {
        Unit percent = Unit.of("%");
        return List.of(
                Plant.point("demand", PointFormat.UINT16, "0.1", "0", States.NONE, ObjectKind.ANALOG_INPUT, percent),
                Plant.point("enable", new PointFormat.RegisterBit(0, 0), "1", "0", held(), ObjectKind.BINARY_INPUT),
                Plant.point("mode", PointFormat.UINT16, "1", "0", modes(), ObjectKind.MULTI_STATE_INPUT),
                Plant.point("record", PointFormat.UINT16, "1", "0", States.NONE, ObjectKind.ANALOG_INPUT),
                Plant.point("beat", PointFormat.UINT16, "1", "0", States.NONE, ObjectKind.ANALOG_INPUT));
    }

    private static States held() {
        return states(Map.of(0L, "held", 1L, "released"));
    }

    private static States modes() {
        return states(Map.of(0L, "base load", 10L, "follow", 20L, "night"));
    }

    private static States states(Map<Long, String> texts) {
        Map<Long, String> ordered = new LinkedHashMap<>();
        texts.keySet().stream().sorted().forEach(state -> ordered.put(state, texts.get(state)));
        return new States(ordered);
    }

    /** The mode's numbers are not in the order of its states: 10 was there first. */
    private static List<Bindings.Binding> bindings() {
        List<Bindings.Binding> all = new ArrayList<>();
        all.add(Plant.binding("demand", ObjectKind.ANALOG_INPUT, 5));
        all.add(Plant.binding("enable", ObjectKind.BINARY_INPUT, 6));
        all.add(new Bindings.Binding(
                Plant.TYPE,
                new Name("mode"),
                ObjectKind.MULTI_STATE_INPUT,
                7,
                new StateNumbers(Map.of(10L, 1, 0L, 2, 20L, 3))));
        all.add(Plant.binding("record", ObjectKind.ANALOG_INPUT, 8));
        all.add(Plant.binding("beat", ObjectKind.ANALOG_INPUT, 9));
        all.add(Plant.binding("demand-request", ObjectKind.ANALOG_VALUE, 50));
        all.add(Plant.binding("demand-lease", ObjectKind.ANALOG_VALUE, 60));
        all.add(Plant.binding("enable-request", ObjectKind.BINARY_VALUE, 51));
        all.add(Plant.binding("enable-lease", ObjectKind.ANALOG_VALUE, 61));
        all.add(Plant.binding("mode-request", ObjectKind.MULTI_STATE_VALUE, 52));
        all.add(Plant.binding("mode-lease", ObjectKind.ANALOG_VALUE, 62));
        all.add(Plant.binding("record-request", ObjectKind.ANALOG_VALUE, 53));
        all.add(Plant.binding("record-lease", ObjectKind.ANALOG_VALUE, 63));
        all.add(Plant.binding("beat-request", ObjectKind.ANALOG_VALUE, 54));
        return all;
    }

    public static List<WritePermit> permits() {
        return List.of(
                asked("demand", range(20, 90), Optional.of(write(30))),
                asked("enable", new Allowed.States(Set.of(0L, 1L)), Optional.of(write(0))),
                asked(
                        "mode",
                        new Allowed.States(Set.of(0L, 10L, 20L)),
                        Optional.of(new Silence(Duration.ofMinutes(15), new Silence.Action.Release()))),
                asked("record", range(1, 20), Optional.empty()),
                new WritePermit(
                        id("beat"),
                        new Purpose.Beat(Duration.ofSeconds(5), new Purpose.Pattern.Toggle()),
                        6,
                        Storage.VOLATILE,
                        "a test"));
    }

    private static Allowed range(int low, int high) {
        return new Allowed.Range(BigDecimal.valueOf(low), BigDecimal.valueOf(high));
    }

    private static Silence write(int value) {
        return new Silence(Duration.ofMinutes(15), new Silence.Action.Write(BigDecimal.valueOf(value)));
    }

    private static WritePermit asked(String point, Allowed allowed, Optional<Silence> silence) {
        return new WritePermit(
                id(point),
                new Purpose.Asked(
                        new Askers(List.of(AddressBlock.parse("127.0.0.0/8").orElseThrow()), false),
                        allowed,
                        Optional.empty(),
                        Duration.ofSeconds(1),
                        Purpose.Asked.USUAL_MQTT_PRIORITY,
                        silence),
                6,
                Storage.VOLATILE,
                "a test");
    }
}
