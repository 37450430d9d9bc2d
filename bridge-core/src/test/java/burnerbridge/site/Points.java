package burnerbridge.site;

import burnerbridge.site.unit.Basis;
import burnerbridge.site.unit.Unit;
import java.math.BigDecimal;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;

/** Small sites for tests. */
public final class Points {
    private Points() {}

    public static PointDefinition uint16(String name, int wire) {
        return point(name, RegisterTable.HOLDING_REGISTER, wire, PointFormat.UINT16, Scaling.NONE, States.NONE);
    }

    public static PointDefinition point(
            String name, RegisterTable table, int wire, PointFormat format, Scaling scaling, States states) {
        return new PointDefinition(
                new Name(name),
                "",
                table,
                wire,
                Integer.toString(wire + 1),
                format,
                scaling,
                Unit.NONE,
                Role.MEASUREMENT,
                Duration.ofSeconds(2),
                Duration.ofSeconds(10),
                states,
                BigDecimal.ZERO,
                ObjectKind.ANALOG_INPUT);
    }

    public static PointDefinition limited(PointFormat format, Scaling scaling, States states, Limits limits) {
        return limited(format, scaling, states, limits, Consistency.ONE_READ);
    }

    /** A point of a register table with everything that its format allows. */
    public static PointDefinition limited(
            PointFormat format, Scaling scaling, States states, Limits limits, Consistency consistency) {
        return new PointDefinition(
                new Name("p"),
                "",
                RegisterTable.HOLDING_REGISTER,
                0,
                "1",
                format,
                scaling,
                Unit.NONE,
                Role.MEASUREMENT,
                Duration.ofSeconds(2),
                Duration.ofSeconds(10),
                states,
                BigDecimal.ZERO,
                ObjectKind.NONE,
                limits,
                consistency,
                Basis.NONE,
                PointOptions.NONE);
    }

    /** A uint16 with the points that it belongs to. */
    public static PointDefinition together(String name, int wire, Consistency consistency) {
        return new PointDefinition(
                new Name(name),
                "",
                RegisterTable.HOLDING_REGISTER,
                wire,
                Integer.toString(wire + 1),
                PointFormat.UINT16,
                Scaling.NONE,
                Unit.NONE,
                Role.MEASUREMENT,
                Duration.ofSeconds(2),
                Duration.ofSeconds(10),
                States.NONE,
                BigDecimal.ZERO,
                ObjectKind.NONE,
                Limits.NONE,
                consistency,
                Basis.NONE,
                PointOptions.NONE);
    }

    /** A pressure above that of the air. */
    static PointDefinition gauge(String description) {
        return new PointDefinition(
                new Name("gas-pressure"),
                description,
                RegisterTable.HOLDING_REGISTER,
                0,
                "1",
                PointFormat.UINT16,
                Scaling.NONE,
                Unit.of("mbar"),
                Role.MEASUREMENT,
                Duration.ofSeconds(2),
                Duration.ofSeconds(10),
                States.NONE,
                BigDecimal.ZERO,
                ObjectKind.ANALOG_INPUT,
                Limits.NONE,
                Consistency.ONE_READ,
                new Basis(Set.of(Basis.Word.GAUGE)),
                PointOptions.NONE);
    }

    /** A uint16 that is read at an interval. */
    public static PointDefinition every(String name, int wire, Duration every) {
        return new PointDefinition(
                new Name(name),
                "",
                RegisterTable.HOLDING_REGISTER,
                wire,
                Integer.toString(wire + 1),
                PointFormat.UINT16,
                Scaling.NONE,
                Unit.NONE,
                Role.MEASUREMENT,
                every,
                every.multipliedBy(3).plusSeconds(10),
                States.NONE,
                BigDecimal.ZERO,
                ObjectKind.NONE);
    }

    /** The same in another role. */
    public static PointDefinition as(Role role, PointDefinition point) {
        return new PointDefinition(
                point.name(),
                point.description(),
                point.table(),
                point.wireAddress(),
                point.manualAddress(),
                point.format(),
                point.scaling(),
                point.unit(),
                role,
                point.every(),
                point.staleAfter(),
                point.states(),
                point.change(),
                point.object(),
                point.limits(),
                point.consistency(),
                point.basis(),
                point.options());
    }

    public static Scaling scale(String scale, String offset) {
        return new Scaling(new BigDecimal(scale), new BigDecimal(offset));
    }

    public static States states(Map<Long, String> texts) {
        return new States(texts);
    }

    public static ControllerDefinition controller(int ordinal, String name, int unit, PointDefinition... points) {
        return new ControllerDefinition(
                ordinal,
                new Name(name),
                new Name("annex"),
                new UnitId(unit),
                new ControllerType(new Name("hot-water"), List.of(points)),
                1000 * (ordinal + 1));
    }

    public static LineDefinition line() {
        return new LineDefinition(
                new Name("annex"),
                new LineDefinition.Tcp("127.0.0.1", 502),
                Duration.ofSeconds(1),
                Duration.ofSeconds(3));
    }

    public static List<SitePoint> of(ControllerDefinition... controllers) {
        List<SitePoint> points = new ArrayList<>();
        for (ControllerDefinition controller : controllers) {
            for (PointDefinition definition : controller.type().points()) {
                points.add(new SitePoint(points.size(), controller, definition));
            }
        }
        return points;
    }
}
