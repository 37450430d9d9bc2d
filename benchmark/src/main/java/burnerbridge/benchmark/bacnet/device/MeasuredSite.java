package burnerbridge.benchmark.bacnet.device;

import burnerbridge.site.Bindings;
import burnerbridge.site.ControllerDefinition;
import burnerbridge.site.ControllerType;
import burnerbridge.site.LineDefinition;
import burnerbridge.site.Name;
import burnerbridge.site.ObjectKind;
import burnerbridge.site.PointDefinition;
import burnerbridge.site.PointFormat;
import burnerbridge.site.RegisterTable;
import burnerbridge.site.Role;
import burnerbridge.site.Scaling;
import burnerbridge.site.Site;
import burnerbridge.site.States;
import burnerbridge.site.UnitId;
import burnerbridge.site.unit.Unit;
import java.math.BigDecimal;
import java.time.Duration;
import java.time.ZoneOffset;
import java.util.List;
import java.util.Optional;
import java.util.stream.IntStream;

/** One controller with as many points as objects are wanted, each an Analog Input, from instance 1 on. */
final class MeasuredSite {
    static final BigDecimal CHANGE = new BigDecimal("0.5");

    private static final Name TYPE = new Name("burner");
    private static final Name CONTROLLER = new Name("boiler-1");

    private MeasuredSite() {}

    static Site of(int objects) {
        List<PointDefinition> points =
                IntStream.range(0, objects).mapToObj(MeasuredSite::point).toList();
        Bindings bindings = new Bindings(IntStream.range(0, objects)
                .mapToObj(i -> new Bindings.Binding(TYPE, pointName(i), ObjectKind.ANALOG_INPUT, i + 1))
                .toList());
        LineDefinition line = new LineDefinition(
                new Name("line-1"),
                new LineDefinition.Tcp("127.0.0.1", 502),
                Duration.ofSeconds(1),
                Duration.ofSeconds(1));
        ControllerType type = new ControllerType(TYPE, points);
        return new Site(
                new Name("quillmere"),
                "",
                ZoneOffset.UTC,
                List.of(line),
                List.of(new ControllerDefinition(0, CONTROLLER, line.name(), new UnitId(1), type, 0)),
                bindings,
                Optional.empty(),
                Optional.empty());
    }

    static String objectName(int number) {
        return CONTROLLER + "." + pointName(number);
    }

    private static Name pointName(int number) {
        return new Name("point-" + number);
    }

    private static PointDefinition point(int number) {
        return new PointDefinition(
                pointName(number),
                "",
                RegisterTable.HOLDING_REGISTER,
                number,
                Integer.toString(40_001 + number),
                PointFormat.UINT16,
                Scaling.NONE,
                Unit.of("%"),
                Role.MEASUREMENT,
                Duration.ofHours(1),
                Duration.ofHours(3),
                States.NONE,
                CHANGE,
                ObjectKind.ANALOG_INPUT);
    }
}
