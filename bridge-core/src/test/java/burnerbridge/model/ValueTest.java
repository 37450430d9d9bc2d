package burnerbridge.model;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.math.BigDecimal;
import java.math.BigInteger;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class ValueTest {

    @ParameterizedTest
    @CsvSource({"42.5, 1, 42.5", "42.5, 2, 42.50", "1e7, 0, 10000000", "-0.05, 2, -0.05", "456.7, 1, 456.7"})
    void aRealShowsTheDecimalsThatAreWorthShowing(double number, int decimals, String text) {
        assertThat(new RealValue(number, decimals).text()).isEqualTo(text);
    }

    @Test
    void aRealShowsEveryDigitThatADoubleCannot() {
        RealValue energy = new RealValue(new BigDecimal("18446744073709551.615"), 3);
        assertThat(energy.text()).isEqualTo("18446744073709551.615");
        assertThat(energy.number()).isEqualTo(18446744073709552d);
        assertThat(new RealValue(new BigDecimal("36.60000000000000000000001"), 1))
                .isEqualTo(new RealValue(36.6, 1));
    }

    @Test
    void equalNumbersAreEqualRealsHoweverTheyWereWritten() {
        Random dice = new Random(20261128);
        for (int i = 0; i < 200_000; i++) {
            BigDecimal number = BigDecimal.valueOf(dice.nextLong() >> dice.nextInt(64), dice.nextInt(24) - 6);
            if (number.precision() <= 15) {
                RealValue real = new RealValue(number, 6);
                assertThat(real.number()).isEqualTo(number.doubleValue());
                assertThat(real).isEqualTo(new RealValue(number.setScale(number.scale() + 2), 6));
            }
        }
    }

    @ParameterizedTest
    @CsvSource({
        "42, 42.0",
        "42.50, 42.5",
        "0E-5, 0.0",
        "0.02, 0.02",
        "-9999999, -9999999.0",
        "2E-2, 0.02",
        "1E+3, 1000.0"
    })
    void aRealOfFewDigitsIsWrittenOutWithOneDecimalAtLeast(BigDecimal number, BigDecimal exact) {
        assertThat(new RealValue(number, 3).exact()).isEqualTo(exact);
    }

    @Test
    void aRealIsNeverNotANumber() {
        assertThatThrownBy(() -> new RealValue(Double.NaN, 0)).hasMessageContaining("finite");
        assertThatThrownBy(() -> new RealValue(Double.POSITIVE_INFINITY, 0)).hasMessageContaining("finite");
    }

    @Test
    void anIntegerIsExactToTheLastOfSixtyFourBits() {
        BigInteger largest = BigInteger.ONE.shiftLeft(64).subtract(BigInteger.ONE);
        assertThat(new IntegerValue(largest).text()).isEqualTo("18446744073709551615");
        assertThatThrownBy(() -> new IntegerValue(BigInteger.ONE.shiftLeft(64))).hasMessageContaining("64 bits");
    }

    @Test
    void aStateWithoutTextShowsItsNumber() {
        assertThat(new StateValue(7, null).text()).isEqualTo("7");
        assertThat(new StateValue(1, "purge").text()).isEqualTo("purge");
    }
}
