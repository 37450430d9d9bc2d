package burnerbridge.bacnet;

import burnerbridge.model.BridgeClock;
import burnerbridge.model.Quality;
import burnerbridge.model.Reading;
import burnerbridge.model.RealValue;
import burnerbridge.model.Reason;
import burnerbridge.model.Registers;
import burnerbridge.model.Stamp;
import burnerbridge.model.Value;
import burnerbridge.site.BacnetSettings;
import burnerbridge.site.Bindings;
import burnerbridge.site.ControllerDefinition;
import burnerbridge.site.ControllerType;
import burnerbridge.site.Name;
import burnerbridge.site.ObjectKind;
import burnerbridge.site.PointDefinition;
import burnerbridge.site.PointFormat;
import burnerbridge.site.RegisterTable;
import burnerbridge.site.Role;
import burnerbridge.site.Scaling;
import burnerbridge.site.Site;
import burnerbridge.site.SitePoint;
import burnerbridge.site.StateNumbers;
import burnerbridge.site.States;
import burnerbridge.site.UnitId;
import burnerbridge.site.WordOrder;
import burnerbridge.site.unit.Unit;
import burnerbridge.table.ControllerLink;
import burnerbridge.table.ValueTable;
import java.math.BigDecimal;
import java.time.Duration;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/** A small invented plant: two boilers of one type, whose objects are 5 to 20 and 1005 to 1020. */
public final class Plant {
    public static final Name TYPE = new Name("hot-water");
    public static final int DEVICE = 3;

    private final BridgeClock clock;
    public final Site site;
    public final ValueTable table;

    public Plant(BridgeClock clock) {
        this(clock, ZoneOffset.UTC, points(), bindings());
    }

    /** Two boilers with these points. */
    public Plant(BridgeClock clock, ZoneId zone, List<PointDefinition> points, Bindings bindings) {
        this(clock, zone, points, bindings, 1000);
    }

    /** As above, with the instance base of the second. */
    public Plant(BridgeClock clock, ZoneId zone, List<PointDefinition> points, Bindings bindings, int secondBase) {
        this.clock = clock;
        ControllerType type = new ControllerType(TYPE, points);
        List<ControllerDefinition> controllers =
                List.of(controller(0, "boiler-1", type, 0), controller(1, "boiler-2", type, secondBase));
        this.site = new Site(
                new Name("quillmere"),
                "Two hot-water boilers (invented)",
                zone,
                List.of(),
                controllers,
                bindings,
                Optional.empty(),
                Optional.empty());
        this.table = new ValueTable(site.points(), controllers);
    }

    private static List<PointDefinition> points() {
        List<PointDefinition> points = new ArrayList<>();
        points.add(number("flue-temperature", "0.1", "0"));
        points.add(number("fuel", "0.1", "0.1"));
        points.add(number("oxygen", "0.1", "0.5"));
        points.add(float32("pressure", "0.2"));
        points.add(point(
                "flame", new PointFormat.RegisterBit(0, 0), "1", "0", texts("off", "on"), ObjectKind.BINARY_INPUT));
        points.add(point("fan", new PointFormat.RegisterBit(1, 1), "1", "0", States.NONE, ObjectKind.BINARY_INPUT));
        points.add(point("phase", PointFormat.UINT16, "1", "0", phases(), ObjectKind.MULTI_STATE_INPUT));
        points.add(number("not-bound", "1", "0"));
        points.add(point("curve-1", PointFormat.UINT16, "1", "0", States.NONE, ObjectKind.NONE));
        return points;
    }

    private static States phases() {
        Map<Long, String> phases = new LinkedHashMap<>();
        phases.put(0L, "standby");
        phases.put(20L, "purge");
        phases.put(30L, "ignition");
        phases.put(50L, "run");
        phases.put(99L, "lockout");
        return new States(phases);
    }

    private static States texts(String zero, String one) {
        Map<Long, String> texts = new LinkedHashMap<>();
        texts.put(0L, zero);
        texts.put(1L, one);
        return new States(texts);
    }

    private static PointDefinition number(String name, String scale, String change) {
        return point(name, PointFormat.UINT16, scale, change, States.NONE, ObjectKind.ANALOG_INPUT);
    }

    private static PointDefinition float32(String name, String change) {
        PointFormat format = new PointFormat.Floating(32, WordOrder.HIGH_WORD_FIRST);
        return point(name, format, "1", change, States.NONE, ObjectKind.ANALOG_INPUT);
    }

    /** The same plant bound otherwise. */
    public Site siteWith(Bindings bindings) {
        return new Site(
                site.name(),
                site.description(),
                site.zone(),
                site.lines(),
                site.controllers(),
                bindings,
                site.bacnet(),
                site.mqtt());
    }

    /** A row with what matters to BACnet. */
    public static PointDefinition point(
            String name, PointFormat format, String scale, String change, States states, ObjectKind object) {
        Unit unit = object == ObjectKind.ANALOG_INPUT ? Unit.of("°C") : Unit.NONE;
        return point(name, format, scale, change, states, object, unit);
    }

    /** As above, with a unit. */
    public static PointDefinition point(
            String name, PointFormat format, String scale, String change, States states, ObjectKind object, Unit unit) {
        return new PointDefinition(
                new Name(name),
                "the " + name + " of a boiler",
                RegisterTable.HOLDING_REGISTER,
                100,
                "101",
                format,
                new Scaling(new BigDecimal(scale), BigDecimal.ZERO),
                unit,
                Role.MEASUREMENT,
                Duration.ofSeconds(2),
                Duration.ofSeconds(10),
                states,
                new BigDecimal(change),
                object);
    }

    private static ControllerDefinition controller(int ordinal, String name, ControllerType type, int base) {
        return new ControllerDefinition(
                ordinal, new Name(name), new Name("boiler-house"), new UnitId(ordinal + 1), type, base);
    }

    private static Bindings bindings() {
        return new Bindings(List.of(
                binding("flue-temperature", ObjectKind.ANALOG_INPUT, 5),
                binding("fuel", ObjectKind.ANALOG_INPUT, 10),
                binding("oxygen", ObjectKind.ANALOG_INPUT, 16),
                binding("pressure", ObjectKind.ANALOG_INPUT, 17),
                binding("flame", ObjectKind.BINARY_INPUT, 18),
                binding("fan", ObjectKind.BINARY_INPUT, 19),
                new Bindings.Binding(
                        TYPE, new Name("phase"), ObjectKind.MULTI_STATE_INPUT, 20, StateNumbers.inOrderOf(phases()))));
    }

    public static Bindings.Binding binding(String point, ObjectKind object, int offset) {
        return new Bindings.Binding(TYPE, new Name(point), object, offset);
    }

    /** Bound to loopback; a port of 0 is any free one. */
    public static BacnetSettings settings(int port) {
        return new BacnetSettings(DEVICE, "quillmere bridge", "127.0.0.1", port, Optional.empty(), 99);
    }

    /** A point of the first boiler. */
    public SitePoint point(String name) {
        return table.points().stream()
                .filter(p -> p.id().toString().equals("boiler-1." + name))
                .findFirst()
                .orElseThrow();
    }

    public void good(String name, Value value) {
        table.publish(point(name), Reading.good(value, now(), Registers.of(1)));
    }

    /** Says whether the first boiler answers. */
    public void answers(ControllerLink link) {
        table.publish(site.controllers().get(0), link);
    }

    public void good(String name, double number) {
        good(name, new RealValue(number, 1));
    }

    /** Makes a point bad, or stale with its last good value. */
    public void not(String name, Reason reason) {
        Reading before = table.reading(point(name));
        Reading after = reason.quality() == Quality.STALE
                ? before.staled(reason)
                : Reading.bad(reason, now(), Registers.of(1), before);
        table.publish(point(name), after);
    }

    public Stamp now() {
        return clock.now();
    }
}
