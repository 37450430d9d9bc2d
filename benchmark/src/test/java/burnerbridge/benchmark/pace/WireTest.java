package burnerbridge.benchmark.pace;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class WireTest {

    /** Worked by hand: 13 characters and 2 for each register, of 11 bits, a silence in it and one after it. */
    @ParameterizedTest
    @CsvSource({
        "9600, 10, 0, 45.8",
        "9600, 125, 0, 309.4",
        "19200, 10, 0, 22.9",
        "19200, 125, 0, 154.7",
        "38400, 100, 0, 64.5",
        "19200, 10, 5, 27.9"
    })
    void aReadTakesWhatItsCharactersAndSilencesTake(int baud, int registers, int turnaround, double millis) {
        Wire wire = new Wire(baud);
        assertThat(wire.transactionMillis(registers, turnaround) + wire.silenceMillis())
                .isEqualTo(millis, within(0.06));
    }
}
