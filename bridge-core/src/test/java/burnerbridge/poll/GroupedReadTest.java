package burnerbridge.poll;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.line.Outcome;
import burnerbridge.model.HandClock;
import burnerbridge.model.IntegerValue;
import burnerbridge.model.RealValue;
import burnerbridge.model.Reason;
import burnerbridge.model.Registers;
import burnerbridge.model.Value;
import burnerbridge.plan.LinePlan;
import burnerbridge.site.Consistency;
import burnerbridge.site.ControllerDefinition;
import burnerbridge.site.Name;
import burnerbridge.site.Points;
import burnerbridge.site.SitePoint;
import burnerbridge.table.ValueTable;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** A pressure whose decimals another register holds, read with it in one transaction. */
class GroupedReadTest {
    private final HandClock clock = new HandClock();

    private final ControllerDefinition boiler = Points.controller(
            0,
            "boiler-1",
            1,
            Points.together(
                    "pressure",
                    299,
                    new Consistency(
                            false, OptionalInt.empty(), Optional.of(new Name("g")), Optional.of(new Name("decimals")))),
            Points.together("decimals", 301, Consistency.ONE_READ.inGroup(new Name("g"))));
    private final List<SitePoint> points = Points.of(boiler);
    private final ValueTable table = new ValueTable(points, List.of(boiler));

    private @Nullable Value pressure(int raw, int decimals) {
        FakeTransport transport =
                new FakeTransport(r -> new Outcome.Answered(Registers.of(raw, 0, decimals), clock.now()));
        LinePlan plan = LinePlan.all(List.of(Points.line()), points).get(0);
        new LinePoller(plan, transport, table, clock).step();
        assertThat(transport.asked).singleElement().matches(r -> r.first() == 299 && r.count() == 3);
        return table.reading(points.get(0)).value();
    }

    @ParameterizedTest
    @CsvSource({"1234, 2, 12.34", "1234, 1, 123.4", "1234, 9, 0.000001234"})
    void theOtherRegisterPlacesThePoint(int raw, int decimals, double value) {
        assertThat(pressure(raw, decimals)).isEqualTo(new RealValue(value, decimals));
        assertThat(table.reading(points.get(1)).value()).isEqualTo(IntegerValue.of(decimals));
    }

    @Test
    void noDecimalsLeaveAWholeNumber() {
        assertThat(pressure(1234, 0)).isEqualTo(IntegerValue.of(1234));
    }

    @Test
    void decimalsThatCannotBeMakeThePointUnreadable() {
        assertThat(pressure(1234, 10)).isNull();
        assertThat(table.reading(points.get(0)).reason()).isEqualTo(Reason.UNREADABLE);
    }
}
