package burnerbridge.site.unit;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import burnerbridge.model.Seed;
import java.math.BigDecimal;
import java.util.Random;
import org.junit.jupiter.api.Test;

class LinearTest {
    private static Linear line(long numerator, long addend, long denominator) {
        return new Linear(BigDecimal.valueOf(numerator), BigDecimal.valueOf(addend), BigDecimal.valueOf(denominator));
    }

    @Test
    void whatEndsAsADecimalIsOne() {
        Linear line = line(9, 160, 5).then(Linear.IDENTITY);
        assertThat(line).isEqualTo(new Linear(new BigDecimal("1.8"), new BigDecimal("32"), BigDecimal.ONE));
        assertThat(line.isDecimal()).isTrue();
        assertThat(line(1, 0, 3).then(Linear.IDENTITY)).isEqualTo(line(1, 0, 3));
    }

    @Test
    void thirdsAreRoundedOnceAtTheEnd() {
        Linear third = line(1, 0, 3);
        assertThat(third.then(line(3, 0, 1)).apply(BigDecimal.valueOf(7))).isEqualByComparingTo("7");
        assertThat(third.apply(BigDecimal.ONE)).isEqualTo("0.333333333333333333333333");
    }

    @Test
    void aScaleOfZeroIsRefused() {
        assertThatThrownBy(() -> line(0, 1, 1)).hasMessage("scale must not be 0");
        assertThatThrownBy(() -> line(1, 1, 0)).hasMessage("scale must not be 0");
    }

    @Test
    void oneAfterAnotherIsBothAtOnce() {
        long seed = Seed.value();
        Random random = new Random(seed);
        for (int i = 0; i < 2000; i++) {
            Linear first = line(1 + random.nextInt(1000), random.nextInt(1000) - 500, 1 + random.nextInt(50));
            Linear second = line(-1 - random.nextInt(1000), random.nextInt(1000) - 500, 1 + random.nextInt(50));
            BigDecimal x = BigDecimal.valueOf(random.nextInt(200_000) - 100_000, 2);
            BigDecimal atOnce = first.then(second).apply(x);
            assertThat(atOnce.subtract(second.apply(first.apply(x))).abs())
                    .as("seed " + seed)
                    .isLessThan(new BigDecimal("1e-12"));
        }
    }
}
