package burnerbridge.site;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.time.Duration;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class ReadRulesTest {
    private static ReadRules rules(boolean mirrored) {
        return new ReadRules(
                mirrored,
                new ReadLimits(
                        32,
                        List.of(
                                new ReadLimits.InRange(range(RegisterTable.HOLDING_REGISTER, 900, 999), 8),
                                new ReadLimits.InRange(range(RegisterTable.HOLDING_REGISTER, 1000, 1999), 100))),
                Duration.ZERO,
                List.of(range(RegisterTable.HOLDING_REGISTER, 50, 51)));
    }

    private static AddressRange range(RegisterTable table, int first, int last) {
        return new AddressRange(table, first, last);
    }

    @ParameterizedTest
    @CsvSource({
        "false, HOLDING_REGISTER, 0, 9, 32, -1",
        "false, HOLDING_REGISTER, 900, 900, 8, 900",
        "false, HOLDING_REGISTER, 899, 900, 8, 900",
        "false, HOLDING_REGISTER, 1000, 1001, 100, 1000",
        "false, HOLDING_REGISTER, 999, 1000, 8, 900",
        "false, HOLDING_REGISTER, 1999, 2000, 32, -1",
        "false, INPUT_REGISTER, 900, 900, 32, -1",
        "true, INPUT_REGISTER, 900, 900, 8, 900",
        "false, COIL, 900, 900, 2000, -1"
    })
    void aReadTakesNoMoreThanAnyOfItsAddressesAllows(
            boolean mirrored, RegisterTable table, int first, int last, int most, int limitedFrom) {
        AddressRange read = range(table, first, last);
        assertThat(rules(mirrored).most(read)).isEqualTo(most);
        assertThat(rules(mirrored)
                        .limiting(read)
                        .map(limit -> limit.range().first())
                        .orElse(-1))
                .isEqualTo(limitedFrom);
    }

    @ParameterizedTest
    @CsvSource({
        "HOLDING_REGISTER, 0, 31, ''",
        "HOLDING_REGISTER, 0, 32, takes 33 addresses",
        "HOLDING_REGISTER, 49, 50, is reserved",
        "HOLDING_REGISTER, 52, 52, ''",
        "INPUT_REGISTER, 50, 50, ''"
    })
    void whatMayNotBeReadAtOnceIsObjectedTo(RegisterTable table, int first, int last, String expected) {
        assertThat(rules(false).objectionTo(range(table, first, last)).orElse(""))
                .contains(expected);
        assertThat(rules(false).objectionTo(range(table, first, last)).isEmpty())
                .isEqualTo(expected.isEmpty());
    }

    @Test
    void tablesThatAreOneAreReadAsHoldingRegisters() {
        assertThat(rules(true).readTable(RegisterTable.INPUT_REGISTER)).isEqualTo(RegisterTable.HOLDING_REGISTER);
        assertThat(rules(true).readTable(RegisterTable.DISCRETE_INPUT)).isEqualTo(RegisterTable.DISCRETE_INPUT);
        assertThat(rules(false).readTable(RegisterTable.INPUT_REGISTER)).isEqualTo(RegisterTable.INPUT_REGISTER);
        assertThat(rules(true).objectionTo(range(RegisterTable.INPUT_REGISTER, 50, 50)))
                .contains("input-register wire 50 reaches into holding-register wire 50..51, which is reserved");
    }

    @ParameterizedTest
    @CsvSource({"-1, 0", "1, 0", "65535, 65536"})
    void aRangeLiesWithinItsTable(int first, int last) {
        assertThatThrownBy(() -> range(RegisterTable.COIL, first, last)).hasMessageContaining("0 to 65535");
    }

    @ParameterizedTest
    @CsvSource({"0", "126"})
    void aLimitIsWhatOneReadCanAskFor(int most) {
        assertThatThrownBy(() -> new ReadLimits(most, List.of())).hasMessageContaining("1 to 125");
    }

    @Test
    void whatAReadClearsIsInNoGroup() {
        assertThatThrownBy(() -> Consistency.ONCE.inGroup(new Name("g"))).hasMessageContaining("once and alone");
    }
}
