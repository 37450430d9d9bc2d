package burnerbridge.line.diagnosis;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.line.ReplyShare;
import burnerbridge.model.Seed;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class LengthTestTest {

    @ParameterizedTest
    @CsvSource({
        // whole and spoilt of short ones, the same of long ones
        "40, 0, 30, 10, true",
        "40, 1, 20, 12, true",
        "20, 0, 12, 8, true",
        // too few of either
        "19, 0, 10, 10, false",
        "40, 0, 10, 9, false",
        // four long ones
        "400, 0, 100, 4, false",
        // less than three times as often
        "100, 20, 100, 60, false",
        // chance may do that
        "20, 0, 16, 5, false",
        "30, 10, 30, 10, false",
        "0, 40, 0, 40, false",
        "10, 30, 40, 0, false"
    })
    void itTakesThreeTimesTheShareBeyondChance(
            long wholeShort, long spoiltShort, long wholeLong, long spoiltLong, boolean rises) {
        assertThat(LengthTest.rises(new ReplyShare(wholeShort, spoiltShort), new ReplyShare(wholeLong, spoiltLong)))
                .isEqualTo(rises);
    }

    @Test
    void aLineThatSpoilsEveryLengthAlikeIsHardlyEverSaidToRise() {
        long seed = Seed.value();
        Random random = new Random(seed);
        int said = 0;
        for (int i = 0; i < 10_000; i++) {
            double spoils = random.nextDouble() / 2;
            said += LengthTest.rises(some(random, spoils), some(random, spoils)) ? 1 : 0;
        }
        assertThat(said).as("of 10,000, seed " + seed).isLessThan(100);
    }

    private static ReplyShare some(Random random, double spoils) {
        int all = 20 + random.nextInt(200);
        int spoilt = 0;
        for (int i = 0; i < all; i++) {
            spoilt += random.nextDouble() < spoils ? 1 : 0;
        }
        return new ReplyShare(all - spoilt, spoilt);
    }
}
