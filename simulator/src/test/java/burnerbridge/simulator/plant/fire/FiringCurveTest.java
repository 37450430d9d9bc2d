package burnerbridge.simulator.plant.fire;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class FiringCurveTest {
    private static final FiringCurve CURVE = new FiringCurve(List.of(
            new FiringCurve.Point(20, 10, 20, 40),
            new FiringCurve.Point(60, 30, 40, 60),
            new FiringCurve.Point(100, 70, 60, 100)));

    @ParameterizedTest
    @CsvSource({
        "0, 10, 20, 40",
        "20, 10, 20, 40",
        "40, 20, 30, 50",
        "60, 30, 40, 60",
        "90, 60, 55, 90",
        "100, 70, 60, 100",
        "120, 70, 60, 100",
    })
    void betweenItsPointsItIsStraightAndBeyondThemItHolds(double load, double fuel, double air, double fan) {
        FiringCurve.Point point = CURVE.at(load);

        assertThat(point.fuel()).isEqualTo(fuel);
        assertThat(point.air()).isEqualTo(air);
        assertThat(point.fan()).isEqualTo(fan);
    }
}
