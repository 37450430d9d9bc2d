package burnerbridge.mqtt.topic;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.params.provider.Arguments.arguments;

import burnerbridge.model.BitValue;
import burnerbridge.model.IntegerValue;
import burnerbridge.model.RealValue;
import burnerbridge.model.StateValue;
import burnerbridge.model.Value;
import java.math.BigDecimal;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;

class DeadBandTest {

    static Stream<Arguments> moves() {
        return Stream.of(
                arguments(real(40.0), real(40.1), "0", true),
                arguments(real(40.0), real(40.0), "0", false),
                arguments(real(42.0), real(42.1), "0.1", true),
                arguments(real(0.3), real(0.2), "0.1", true),
                arguments(real(42.0), real(42.1), "0.2", false),
                arguments(real(42.2), real(42.0), "0.2", true),
                arguments(real(-0.5), real(0.4), "1", false),
                arguments(real(-0.5), real(0.5), "1", true),
                arguments(IntegerValue.of(100), IntegerValue.of(104), "5", false),
                arguments(IntegerValue.of(100), IntegerValue.of(105), "5", true),
                arguments(IntegerValue.of(Long.MAX_VALUE), IntegerValue.of(Long.MIN_VALUE), "5", true),
                arguments(
                        IntegerValue.of(9_007_199_254_740_993L), IntegerValue.of(9_007_199_254_740_992L), "0.5", true),
                // One psi in bar, which does not end: 34 of them and 33, as doubles.
                arguments(real(2.34421747967724), real(2.27526990674556), "0.0689475729316836133672267", true),
                arguments(real(2.3442), real(2.3441), "0.0689475729316836133672267", false),
                arguments(IntegerValue.of(3), real(3.2), "0.5", false),
                arguments(new StateValue(3, "purge"), new StateValue(4, "ignition"), "5", true),
                arguments(new StateValue(3, "purge"), new StateValue(3, "purge"), "5", false),
                arguments(new BitValue(false), new BitValue(true), "5", true),
                arguments(null, real(40.0), "5", true),
                arguments(null, null, "5", false));
    }

    @ParameterizedTest
    @MethodSource("moves")
    void aValueLeavesTheDeadBandByTheChangeOrMore(
            @Nullable Value sent, @Nullable Value now, String change, boolean left) {
        assertThat(DeadBand.isLeft(sent, now, new BigDecimal(change))).isEqualTo(left);
    }

    private static RealValue real(double number) {
        return new RealValue(number, 1);
    }
}
