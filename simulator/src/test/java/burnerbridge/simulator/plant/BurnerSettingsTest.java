package burnerbridge.simulator.plant;

import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.time.Duration;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class BurnerSettingsTest {

    @ParameterizedTest
    @CsvSource({
        "78, 79, 83, 20, start below 79.0",
        "78, 75, 78, 20, stop above 78.0",
        "78, 75, 83,  0, low fire must be between 0 and 100 % (was 0.0)",
        "78, 75, 83, 100, low fire must be between 0 and 100 % (was 100.0)",
    })
    void settingsThatCannotWorkAreRefused(double setpoint, double start, double stop, double low, String message) {
        Duration second = Duration.ofSeconds(1);

        assertThatThrownBy(() -> new BurnerSettings(
                        second, second, second, second, second, setpoint, start, stop, 600, low, 2000, second, second))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessageContaining(message);
    }
}
