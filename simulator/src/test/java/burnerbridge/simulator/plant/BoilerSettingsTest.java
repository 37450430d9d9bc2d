package burnerbridge.simulator.plant;

import static org.assertj.core.api.Assertions.assertThatThrownBy;

import burnerbridge.simulator.plant.fire.FiringCurve;
import burnerbridge.simulator.plant.fire.FuelSettings;
import burnerbridge.simulator.plant.vessel.LoadRange;
import java.time.Duration;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class BoilerSettingsTest {
    private static final FiringCurve CURVE =
            new FiringCurve(List.of(new FiringCurve.Point(20, 1, 1, 1), new FiringCurve.Point(100, 2, 2, 2)));

    @ParameterizedTest
    @CsvSource({
        "78, 79, 83, 90, start below 79.0",
        "78, 75, 78, 90, stop above 78.0",
        "78, 75, 83, 83, high limit 83.0",
    })
    void limitsThatDoNotRiseAreRefused(double setPoint, double start, double stop, double high, String message) {
        assertThatThrownBy(() -> new LoadRange(setPoint, start, stop, high))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessageContaining(message);
    }

    @ParameterizedTest
    @ValueSource(doubles = {0, 100})
    void lowFireLiesBetweenNothingAndAll(double low) {
        Duration second = Duration.ofSeconds(1);

        assertThatThrownBy(() -> new FuelSettings(low, second, second, 20, CURVE))
                .hasMessage("low fire must be between 0 and 100 % (was " + low + ")");
    }

    @Test
    void theLoadsOfACurveRise() {
        FiringCurve.Point point = new FiringCurve.Point(50, 1, 1, 1);

        assertThatThrownBy(() -> new FiringCurve(List.of(point, point)))
                .hasMessage("the loads of a curve rise (50.0 follows 50.0)");
        assertThatThrownBy(() -> new FiringCurve(List.of(point))).hasMessageContaining("two points or more");
    }
}
