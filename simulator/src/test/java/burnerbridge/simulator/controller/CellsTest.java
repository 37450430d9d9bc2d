package burnerbridge.simulator.controller;

import static burnerbridge.simulator.modbus.ModbusTable.COIL;
import static burnerbridge.simulator.modbus.ModbusTable.HOLDING_REGISTER;
import static burnerbridge.simulator.modbus.ModbusTable.INPUT_REGISTER;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class CellsTest {
    private final Cells cells = new Cells();

    @ParameterizedTest
    @CsvSource({"0, 0000", "-1, FFFF", "-32768, 8000", "32767, 7FFF", "-2.4, FFFE", "-40000, 8000", "40000, 7FFF"})
    void aSignedValueIsTwosComplement(double steps, String word) {
        cells.signed(HOLDING_REGISTER, 1, steps);

        assertThat(cells.read(HOLDING_REGISTER, 0, 1)).hasValue(new int[] {Integer.parseInt(word, 16)});
    }

    @ParameterizedTest
    @CsvSource({"0, 0", "65535, 65535", "70000, 65535", "-5, 0", "11.6, 12"})
    void anUnsignedValueStopsAtItsEnds(double steps, int word) {
        cells.unsigned(HOLDING_REGISTER, 1, steps);

        assertThat(cells.read(HOLDING_REGISTER, 0, 1)).hasValue(new int[] {word});
    }

    /** 123.456 as binary32 is 42F6E979 (IEEE 754; from memory). */
    @Test
    void aFloatStandsInTheOrderAskedFor() {
        cells.floatHighWordFirst(INPUT_REGISTER, 1, 123.456).floatLowWordFirst(INPUT_REGISTER, 3, 123.456);

        assertThat(cells.read(INPUT_REGISTER, 0, 4)).hasValue(new int[] {0x42F6, 0xE979, 0xE979, 0x42F6});
    }

    @Test
    void aTableKeepsItsOwnAddresses() {
        cells.bit(COIL, 5, true).unsigned(HOLDING_REGISTER, 5, 9);

        assertThat(cells.read(COIL, 4, 1)).hasValue(new int[] {1});
        assertThat(cells.read(HOLDING_REGISTER, 4, 1)).hasValue(new int[] {9});
        assertThat(cells.read(INPUT_REGISTER, 4, 1)).isEmpty();
    }

    @Test
    void aRunWithAGapIsNotThere() {
        cells.unsigned(HOLDING_REGISTER, 1, 1).unsigned(HOLDING_REGISTER, 3, 3);

        assertThat(cells.read(HOLDING_REGISTER, 0, 3)).isEmpty();
    }

    @Test
    void aNumberIsUsedOnce() {
        cells.floatHighWordFirst(HOLDING_REGISTER, 1, 1);

        assertThatThrownBy(() -> cells.unsigned(HOLDING_REGISTER, 2, 1)).hasMessageContaining("2 is used twice");
    }
}
