package burnerbridge.benchmark.mqtt;

import burnerbridge.model.BridgeClock;
import burnerbridge.model.Reading;
import burnerbridge.model.RealValue;
import burnerbridge.model.Registers;
import burnerbridge.mqtt.MqttAdapter;
import burnerbridge.site.Bindings;
import burnerbridge.site.ControllerDefinition;
import burnerbridge.site.ControllerType;
import burnerbridge.site.LineDefinition;
import burnerbridge.site.MqttSettings;
import burnerbridge.site.Name;
import burnerbridge.site.ObjectKind;
import burnerbridge.site.PointDefinition;
import burnerbridge.site.PointFormat;
import burnerbridge.site.RegisterTable;
import burnerbridge.site.Role;
import burnerbridge.site.Scaling;
import burnerbridge.site.Site;
import burnerbridge.site.SitePoint;
import burnerbridge.site.States;
import burnerbridge.site.UnitId;
import burnerbridge.site.unit.Unit;
import burnerbridge.table.ValueTable;
import java.math.BigDecimal;
import java.net.URI;
import java.time.Duration;
import java.time.ZoneOffset;
import java.util.List;
import java.util.Optional;
import java.util.stream.IntStream;

/** A value table whose points change on command, and the real adapter on it. Long validity: no heartbeats count. */
final class Plant implements AutoCloseable {
    static final String POINTS = "plant/quillmere/boiler-1/";
    private static final Duration STALE_AFTER = Duration.ofHours(3);

    /** Kept, since a site makes the list anew each time. */
    private final List<SitePoint> points;

    private final ValueTable table;
    private final MqttAdapter adapter;
    private final BridgeClock clock;
    private long changes;

    Plant(int points, int port, BridgeClock clock) {
        this.clock = clock;
        Site site = site(points);
        this.points = site.points();
        this.table = new ValueTable(this.points, site.controllers());
        this.adapter = new MqttAdapter(
                new MqttSettings(List.of(URI.create("tcp://127.0.0.1:" + port)), "plant"), site, table, clock);
    }

    void start() {
        adapter.start();
    }

    /** Gives every point another value, each once. */
    void changeAll() {
        for (int i = 0; i < points.size(); i++) {
            change(i);
        }
    }

    /** Gives one point another value; returns how its message begins. */
    String change(int point) {
        RealValue value = new RealValue(++changes % 1_000_000 / 10.0, 1);
        table.publish(points.get(point), Reading.good(value, clock.now(), Registers.of(0)));
        return "{\"value\":" + value.text() + ",";
    }

    @Override
    public void close() {
        adapter.close();
    }

    private static Site site(int points) {
        List<PointDefinition> definitions =
                IntStream.range(0, points).mapToObj(Plant::point).toList();
        ControllerType type = new ControllerType(new Name("burner"), definitions);
        LineDefinition line = new LineDefinition(
                new Name("line-1"),
                new LineDefinition.Tcp("127.0.0.1", 502),
                Duration.ofSeconds(1),
                Duration.ofSeconds(1));
        return new Site(
                new Name("quillmere"),
                "",
                ZoneOffset.UTC,
                List.of(line),
                List.of(new ControllerDefinition(0, new Name("boiler-1"), line.name(), new UnitId(1), type, 1000)),
                Bindings.NONE,
                Optional.empty(),
                Optional.empty());
    }

    private static PointDefinition point(int number) {
        return new PointDefinition(
                new Name("point-" + number),
                "",
                RegisterTable.HOLDING_REGISTER,
                number,
                Integer.toString(40_001 + number),
                PointFormat.UINT16,
                Scaling.NONE,
                Unit.of("%"),
                Role.MEASUREMENT,
                STALE_AFTER.dividedBy(3),
                STALE_AFTER,
                States.NONE,
                BigDecimal.ZERO,
                ObjectKind.NONE);
    }
}
