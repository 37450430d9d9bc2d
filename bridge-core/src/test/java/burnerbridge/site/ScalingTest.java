package burnerbridge.site;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.site.unit.Linear;
import burnerbridge.site.unit.Unit;
import java.math.BigDecimal;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class ScalingTest {
    private static Linear conversion(String from, String to) {
        return Unit.of(from).to(Unit.of(to));
    }

    /** Values by hand; the decimals tell two raw steps apart and still let the step be converted back. */
    @ParameterizedTest
    @CsvSource({
        "0.1, 0, °C, °F, 212, 70.16, 2",
        "1, 0, °C, °F, 21, 69.8, 1",
        "0.1, -50, °C, °F, 1500, 212, 2",
        "1, 0, °F, °C, 212, 100, 1",
        "0.1, 0, mbar, inH2O, 255, 10.237308438, 2",
        "0.01, 0, bar, mbar, 123, 1230, 0",
        "1, 0, W, kW, 1234, 1.234, 3",
        "1, 0, m3/h, l/h, 7, 7000, 0",
        "0.1, 0, m3/h, ft3/h, 30, 105.944000164, 0",
        "1, 0, psi, bar, 1, 0.0689475729, 2"
    })
    void aConversionIsPartOfTheScaling(
            String scale, String offset, String from, String to, BigDecimal raw, BigDecimal value, int decimals) {
        Scaling scaling = Points.scale(scale, offset).shownBy(conversion(from, to));
        assertThat(scaling.apply(raw).subtract(value).abs()).isLessThan(new BigDecimal("1e-8"));
        assertThat(scaling.decimals()).isEqualTo(decimals);
    }

    @Test
    void noConversionLeavesTheScalingAsItIs() {
        assertThat(Scaling.NONE.shownBy(conversion("bar", "bar")).isNone()).isTrue();
        assertThat(Scaling.NONE.shownBy(conversion("kW", "W")).isNone()).isFalse();
    }

    /** 4 to 20 mA as 0 to 27648 for 0 to 16 bar: 13824 is 8 bar, 116.03 psi. */
    @Test
    void aLineThroughTwoPointsIsConvertedToo() {
        Scaling scaling = Scaling.through(BigDecimal.ZERO, new BigDecimal(27648), BigDecimal.ZERO, new BigDecimal(16))
                .shownBy(conversion("bar", "psi"));
        assertThat(scaling.apply(new BigDecimal(13824)).doubleValue()).isBetween(116.0301, 116.0302);
        assertThat(scaling.decimals()).isEqualTo(3);
    }

    @Test
    void decimalsThatAnotherPointHoldsComeBeforeTheConversion() {
        Scaling scaling = Scaling.NONE.shownBy(conversion("°C", "°F")).withDecimals(1);
        assertThat(scaling.apply(new BigDecimal(215))).isEqualByComparingTo("70.7");
        assertThat(scaling.decimals()).isEqualTo(2);
    }
}
