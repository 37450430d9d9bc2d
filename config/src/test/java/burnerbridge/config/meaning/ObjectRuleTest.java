package burnerbridge.config.meaning;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.site.ObjectKind;
import burnerbridge.site.PointFormat;
import burnerbridge.site.Role;
import burnerbridge.site.Scaling;
import burnerbridge.site.States;
import burnerbridge.site.WordOrder;
import java.math.BigDecimal;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** The kind of object by format and role, as the page of BACnet has it. */
final class ObjectRuleTest {

    private static PointFormat format(String word) {
        WordOrder order = WordOrder.HIGH_WORD_FIRST;
        return switch (word) {
            case "bit" -> new PointFormat.Bit();
            case "uint16" -> PointFormat.UINT16;
            case "int16" -> PointFormat.INT16;
            case "uint32" -> new PointFormat.Whole(32, false, order);
            case "int32" -> new PointFormat.Whole(32, true, order);
            case "uint64" -> new PointFormat.Whole(64, false, order);
            case "bcd32" -> new PointFormat.Bcd(2, order);
            case "decimal-words:3" -> new PointFormat.DecimalWords(3, order);
            case "decimal-words:4" -> new PointFormat.DecimalWords(4, order);
            case "float32" -> new PointFormat.Floating(32, order);
            case "float64" -> new PointFormat.Floating(64, order);
            case "text" -> new PointFormat.Text(4, order);
            case "epoch32" -> new PointFormat.Epoch32(order, java.time.ZoneOffset.UTC);
            default -> throw new IllegalArgumentException(word);
        };
    }

    private static ObjectRule rule(String format, Role role, String scale, boolean basic) {
        Scaling scaling = new Scaling(new BigDecimal(scale), BigDecimal.ZERO);
        return new ObjectRule(format(format), States.NONE, role, scaling, false, basic);
    }

    @ParameterizedTest
    @CsvSource({
        "bit, MEASUREMENT, 1, BINARY_INPUT, BINARY_INPUT",
        "uint16, MEASUREMENT, 0.1, ANALOG_INPUT, ANALOG_INPUT",
        "float32, MEASUREMENT, 1, ANALOG_INPUT, ANALOG_INPUT",
        "int16, SETTING, 0.1, ANALOG_VALUE, ANALOG_VALUE",
        "uint16, SAFETY_SETTING, 1, ANALOG_VALUE, ANALOG_VALUE",
        "uint16, COUNTER, 1, ANALOG_INPUT, ANALOG_INPUT",
        "uint32, COUNTER, 1, ACCUMULATOR, NONE",
        "uint32, COUNTER, 0.1, ACCUMULATOR, NONE",
        "uint32, COUNTER, -0.1, LARGE_ANALOG_VALUE, NONE",
        "int32, COUNTER, 1, INTEGER_VALUE, NONE",
        "bcd32, COUNTER, 0.01, ACCUMULATOR, NONE",
        "uint64, COUNTER, 1, CHARACTERSTRING_VALUE, NONE",
        "uint32, STATUS, 1, POSITIVE_INTEGER_VALUE, NONE",
        "int32, MEASUREMENT, 1, INTEGER_VALUE, NONE",
        "int32, MEASUREMENT, 0.1, LARGE_ANALOG_VALUE, NONE",
        "uint32, MEASUREMENT, 0.1, LARGE_ANALOG_VALUE, NONE",
        "decimal-words:3, MEASUREMENT, 1, LARGE_ANALOG_VALUE, NONE",
        "decimal-words:4, MEASUREMENT, 1, CHARACTERSTRING_VALUE, NONE",
        "uint16, IDENTITY, 1, POSITIVE_INTEGER_VALUE, ANALOG_INPUT",
        "int16, IDENTITY, 1, INTEGER_VALUE, ANALOG_INPUT",
        "uint16, IDENTITY, 0.1, ANALOG_INPUT, ANALOG_INPUT",
        "float64, MEASUREMENT, 1, LARGE_ANALOG_VALUE, NONE",
        "text, IDENTITY, 1, CHARACTERSTRING_VALUE, NONE",
        "epoch32, CLOCK, 1, DATETIME_VALUE, NONE",
    })
    void theUsualKindHoldsEveryDigit(String format, Role role, String scale, ObjectKind all, ObjectKind basic) {
        assertThat(rule(format, role, scale, false).usual()).hasValue(all);
        assertThat(rule(format, role, scale, true).usual().orElse(ObjectKind.NONE))
                .isEqualTo(basic);
    }

    @Test
    void statesAreMultiStateWhateverTheirRole() {
        States states = new States(Map.of(1L, "on"));
        ObjectRule rule = new ObjectRule(PointFormat.UINT16, states, Role.SETTING, Scaling.NONE, false, true);
        assertThat(rule.usual()).hasValue(ObjectKind.MULTI_STATE_INPUT);
        assertThat(rule.possible()).contains(ObjectKind.MULTI_STATE_VALUE);
    }

    @Test
    void aTotalWithAnOffsetOrMovingDecimalsIsNoAccumulator() {
        PointFormat format = format("uint32");
        Scaling above = new Scaling(BigDecimal.ONE, BigDecimal.TEN);
        assertThat(new ObjectRule(format, States.NONE, Role.COUNTER, above, false, false).possible())
                .doesNotContain(ObjectKind.ACCUMULATOR);
        assertThat(new ObjectRule(format, States.NONE, Role.COUNTER, Scaling.NONE, true, false).possible())
                .doesNotContain(ObjectKind.ACCUMULATOR, ObjectKind.POSITIVE_INTEGER_VALUE);
    }

    @Test
    void anAnalogInputMayBeAskedForThoughItRounds() {
        assertThat(rule("uint64", Role.STATUS, "1", true).possible()).contains(ObjectKind.ANALOG_INPUT);
        assertThat(rule("uint64", Role.STATUS, "1", true).rounds(ObjectKind.ANALOG_INPUT))
                .isTrue();
    }
}
