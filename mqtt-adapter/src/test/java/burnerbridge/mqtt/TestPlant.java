package burnerbridge.mqtt;

import burnerbridge.model.IntegerValue;
import burnerbridge.model.Reading;
import burnerbridge.model.RealValue;
import burnerbridge.model.Registers;
import burnerbridge.model.Stamp;
import burnerbridge.site.Bindings;
import burnerbridge.site.ControllerDefinition;
import burnerbridge.site.ControllerType;
import burnerbridge.site.LineDefinition;
import burnerbridge.site.MqttSettings;
import burnerbridge.site.Name;
import burnerbridge.site.ObjectKind;
import burnerbridge.site.PointDefinition;
import burnerbridge.site.PointFormat;
import burnerbridge.site.PointId;
import burnerbridge.site.RegisterTable;
import burnerbridge.site.Role;
import burnerbridge.site.Scaling;
import burnerbridge.site.Site;
import burnerbridge.site.States;
import burnerbridge.site.UnitId;
import burnerbridge.site.permit.Allowed;
import burnerbridge.site.permit.Askers;
import burnerbridge.site.permit.Functions;
import burnerbridge.site.permit.Purpose;
import burnerbridge.site.permit.Silence;
import burnerbridge.site.permit.Storage;
import burnerbridge.site.permit.WritePermit;
import burnerbridge.site.unit.Unit;
import burnerbridge.table.ValueTable;
import java.math.BigDecimal;
import java.net.URI;
import java.time.Duration;
import java.time.ZoneOffset;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.IntStream;

/** Sites for tests: one line, controllers boiler-1, boiler-2 … of one type. */
public final class TestPlant {
    public static final Duration TEN_SECONDS = Duration.ofSeconds(10);

    private TestPlant() {}

    public static PointDefinition point(String name) {
        return point(name, Unit.of("%"), TEN_SECONDS, "0", States.NONE);
    }

    /** A point that is never polled. */
    public static PointDefinition neverRead(String name) {
        return point(name, Role.LOCKOUT_RESET, Duration.ZERO, Unit.NONE, TEN_SECONDS, "0", States.NONE);
    }

    public static PointDefinition point(String name, Unit unit, Duration staleAfter, String change, States states) {
        return point(name, Role.MEASUREMENT, staleAfter.dividedBy(3), unit, staleAfter, change, states);
    }

    private static PointDefinition point(
            String name, Role role, Duration every, Unit unit, Duration staleAfter, String change, States states) {
        return new PointDefinition(
                new Name(name),
                "",
                RegisterTable.HOLDING_REGISTER,
                100,
                "40101",
                PointFormat.UINT16,
                Scaling.NONE,
                unit,
                role,
                every,
                staleAfter,
                states,
                new BigDecimal(change),
                ObjectKind.NONE);
    }

    /** A site with a number of points, {@code point-1} and so on, that turn stale after ten seconds. */
    public static Site siteOf(int points) {
        return site(
                1,
                IntStream.rangeClosed(1, points)
                        .mapToObj(i -> point("point-" + i))
                        .toArray(PointDefinition[]::new));
    }

    public static Site site(int controllers, PointDefinition... points) {
        ControllerType type = new ControllerType(new Name("burner"), List.of(points));
        LineDefinition line = new LineDefinition(
                new Name("line-1"),
                new LineDefinition.Tcp("127.0.0.1", 502),
                Duration.ofSeconds(1),
                Duration.ofSeconds(1));
        List<ControllerDefinition> all = IntStream.range(0, controllers)
                .mapToObj(i -> new ControllerDefinition(
                        i, new Name("boiler-" + (i + 1)), line.name(), new UnitId(i + 1), type, 1000 * i))
                .toList();
        return new Site(
                new Name("quillmere"),
                "",
                ZoneOffset.UTC,
                List.of(line),
                all,
                Bindings.NONE,
                Optional.empty(),
                Optional.empty());
    }

    public static ValueTable table(Site site) {
        return new ValueTable(site.points(), site.controllers());
    }

    public static MqttSettings settings(String... brokers) {
        return new MqttSettings(List.of(brokers).stream().map(URI::create).toList(), "plant/heat");
    }

    /** A site that has fewer of both than {@link #site}: the first controllers with the first points. */
    public static Site part(Site whole, int controllers, int points) {
        return site(
                controllers,
                whole.controllers().get(0).type().points().stream()
                        .limit(points)
                        .toArray(PointDefinition[]::new));
    }

    /** A point of any format, that turns stale after five minutes. */
    public static PointDefinition point(String name, PointFormat format, Scaling scaling, Unit unit, States states) {
        Duration staleAfter = Duration.ofMinutes(5);
        return new PointDefinition(
                new Name(name),
                "Description of " + name,
                RegisterTable.HOLDING_REGISTER,
                100,
                "40101",
                format,
                scaling,
                unit,
                Role.MEASUREMENT,
                staleAfter.dividedBy(3),
                staleAfter,
                states,
                BigDecimal.ZERO,
                ObjectKind.NONE);
    }

    /** A site of one boiler whose load, enable and mode may be asked for, and whose limit BACnet alone may. */
    public static Site writable() {
        States states = new States(Map.of(0L, "held", 1L, "released"));
        States modes = new States(Map.of(0L, "off", 1L, "summer", 2L, "winter"));
        return site(
                        1,
                        point("load"),
                        point("enable", new PointFormat.Bit(), Scaling.NONE, Unit.NONE, states),
                        point("mode", PointFormat.UINT16, Scaling.NONE, Unit.NONE, modes),
                        point("bare", new PointFormat.Bit(), Scaling.NONE, Unit.NONE, States.NONE),
                        point("limit"))
                .with(List.of(
                        permit("load", true, new Allowed.Range(new BigDecimal("20"), new BigDecimal("90"))),
                        permit("enable", true, new Allowed.States(Set.of(0L, 1L))),
                        permit("mode", true, new Allowed.States(Set.of(1L, 2L))),
                        permit("bare", true, new Allowed.States(Set.of(0L, 1L))),
                        permit("limit", false, new Allowed.Range(BigDecimal.ZERO, BigDecimal.TEN))));
    }

    private static WritePermit permit(String point, boolean mqtt, Allowed allowed) {
        Purpose purpose = new Purpose.Asked(
                new Askers(List.of(), mqtt),
                allowed,
                Optional.empty(),
                Duration.ofSeconds(60),
                Purpose.Asked.USUAL_MQTT_PRIORITY,
                Optional.of(new Silence(Duration.ofMinutes(15), new Silence.Action.Write(BigDecimal.ZERO))));
        return new WritePermit(
                new PointId(new Name("boiler-1"), new Name(point)),
                purpose,
                Functions.SINGLE_REGISTER,
                Storage.VOLATILE,
                "");
    }

    public static MqttSettings olderSettings(String... brokers) {
        MqttSettings five = settings(brokers);
        return new MqttSettings(
                five.brokers(),
                five.root(),
                MqttSettings.Version.V3_1_1,
                Optional.empty(),
                Optional.empty(),
                Optional.empty(),
                MqttSettings.Tls.NONE);
    }

    public static Reading real(double number, Stamp askedAt) {
        return Reading.good(new RealValue(number, 1), askedAt, Registers.of(0));
    }

    public static Reading whole(long number, Stamp askedAt) {
        return Reading.good(IntegerValue.of(number), askedAt, Registers.of(0));
    }
}
