package burnerbridge.values;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.params.provider.Arguments.arguments;

import burnerbridge.control.JsonLine;
import burnerbridge.model.BitValue;
import burnerbridge.model.DateTimeValue;
import burnerbridge.model.IntegerValue;
import burnerbridge.model.RealValue;
import burnerbridge.model.StateValue;
import burnerbridge.model.TextValue;
import burnerbridge.model.Value;
import burnerbridge.site.Severity;
import burnerbridge.site.States;
import java.math.BigInteger;
import java.time.LocalDateTime;
import java.util.Map;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;

class ValueFormTest {
    private static final States FLAME = new States(Map.of(0L, "off", 1L, "burning"));

    static Stream<Arguments> values() {
        return Stream.of(
                arguments(null, "null"),
                arguments(new RealValue(42.5, 1), "42.5"),
                arguments(new RealValue(42.5, 2), "42.50"),
                arguments(new RealValue(42, 0), "42"),
                arguments(new RealValue(-0.04, 1), "0.0"),
                arguments(new RealValue(1e-9, 3), "0.000"),
                arguments(new RealValue(1e21, 1), "1000000000000000000000.0"),
                arguments(IntegerValue.of(0), "0"),
                arguments(IntegerValue.of(-17), "-17"),
                arguments(IntegerValue.of(9_007_199_254_740_992L), "9007199254740992"),
                arguments(IntegerValue.of(9_007_199_254_740_993L), "\"9007199254740993\""),
                arguments(IntegerValue.of(-9_007_199_254_740_992L), "-9007199254740992"),
                arguments(IntegerValue.of(-9_007_199_254_740_993L), "\"-9007199254740993\""),
                arguments(
                        new IntegerValue(BigInteger.TWO.pow(64).subtract(BigInteger.ONE)), "\"18446744073709551615\""),
                arguments(new StateValue(3, "purge"), "{\"number\":3,\"text\":\"purge\"}"),
                arguments(new StateValue(99, null), "{\"number\":99,\"text\":null}"),
                arguments(new BitValue(true), "true"),
                arguments(new BitValue(false), "false"),
                arguments(new TextValue("A\"B\\\u0001\n"), "\"A\\\"B\\\\\\u0001\\n\""),
                arguments(new DateTimeValue(LocalDateTime.of(2026, 11, 25, 8, 0)), "\"2026-11-25T08:00:00\""));
    }

    @ParameterizedTest
    @MethodSource("values")
    void everyKindHasItsForm(@Nullable Value value, String expected) {
        assertThat(form(value, States.NONE)).isEqualTo("{\"value\":" + expected + "}");
    }

    @Test
    void aBitWithNamedStatesIsNumberAndText() {
        assertThat(form(new BitValue(true), FLAME)).isEqualTo("{\"value\":{\"number\":1,\"text\":\"burning\"}}");
        assertThat(form(new BitValue(false), new States(Map.of(1L, "on"))))
                .isEqualTo("{\"value\":{\"number\":0,\"text\":null}}");
    }

    @Test
    void aFaultCauseHasItsSeverity() {
        States causes = new States(Map.of(6L, "gas pressure low", 7L, "other"), Map.of(6L, Severity.FAULT));
        assertThat(form(new StateValue(6, "gas pressure low"), causes))
                .isEqualTo("{\"value\":{\"number\":6,\"text\":\"gas pressure low\",\"severity\":\"fault\"}}");
        assertThat(form(new StateValue(7, "other"), causes)).isEqualTo("{\"value\":{\"number\":7,\"text\":\"other\"}}");
    }

    private static String form(@Nullable Value value, States states) {
        return JsonLine.object(json -> {
            json.writeName("value");
            JsonLine.write(json, value == null ? null : ValueForm.json(value, states));
        });
    }
}
