package burnerbridge.measure;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class MetricTest {

    @ParameterizedTest
    @ValueSource(strings = {"", "Burner", "burner-bridge", "burner__bridge", "_x", "9x", "x_total", "x "})
    void aNameThatTheFormatDoesNotAllowIsRefused(String name) {
        assertThatThrownBy(() -> Metric.counter(name, "help")).isInstanceOf(IllegalArgumentException.class);
    }

    @Test
    void theNamesOfLabelsAreHeldToTheSame() {
        assertThat(Metric.gauge("burner_bridge_points", "help", "quality").labels())
                .containsExactly("quality");
        assertThatThrownBy(() -> Metric.gauge("burner_bridge_points", "help", "Quality"))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessageContaining("Quality");
    }
}
