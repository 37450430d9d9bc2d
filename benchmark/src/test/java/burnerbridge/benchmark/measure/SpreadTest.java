package burnerbridge.benchmark.measure;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;

import org.junit.jupiter.api.Test;

class SpreadTest {

    @Test
    void quartilesLieBetweenNeighbours() {
        assertThat(Spread.of(4.0, 1.0, 3.0, 2.0)).isEqualTo(new Spread(1, 1.75, 2.5, 3.25, 4));
    }

    @Test
    void theMiddleOfAnOddNumberIsOneOfThem() {
        assertThat(Spread.of(30L, 10L, 20L)).isEqualTo(new Spread(10, 15, 20, 25, 30));
    }

    @Test
    void oneValueIsItsOwnSpread() {
        assertThat(Spread.of(7.0)).isEqualTo(new Spread(7, 7, 7, 7, 7));
    }

    @Test
    void oneThatIsFarOutMovesNoMedian() {
        assertThat(Spread.of(1.0, 2.0, 3.0, 4.0, 1_000_000.0).median()).isEqualTo(3);
    }

    @Test
    void noneHasNoSpread() {
        assertThatIllegalArgumentException().isThrownBy(() -> Spread.of(new double[0]));
    }

    @Test
    void isWrittenWithQuartilesOrRange() {
        Spread spread = Spread.of(4.0, 1.0, 3.0, 2.0).times(10);
        assertThat(spread.quartiles(1)).isEqualTo("25.0 (17.5..32.5)");
        assertThat(spread.range(0)).isEqualTo("25 (10..40)");
    }
}
