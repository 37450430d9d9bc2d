package burnerbridge.simulator.registers;

import static burnerbridge.simulator.modbus.ModbusTable.COIL;
import static burnerbridge.simulator.modbus.ModbusTable.DISCRETE_INPUT;
import static burnerbridge.simulator.modbus.ModbusTable.HOLDING_REGISTER;
import static burnerbridge.simulator.modbus.ModbusTable.INPUT_REGISTER;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import burnerbridge.simulator.plant.Blueprints;
import burnerbridge.simulator.plant.Boiler;
import burnerbridge.simulator.plant.BoilerSettings;
import java.time.Instant;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;

class TableReaderTest {
    private static final Instant BEGINS = Instant.parse("2026-11-28T09:30:00Z");
    private final Boiler boiler = new Boiler(Blueprints.boiler1(), 1, BEGINS);

    @Test
    void addressesAreCountedAsTheTableSays() {
        ControllerRegisters one = registers("count-from 1", "input 8 u16 step=0.1 set-point");
        ControllerRegisters wire = registers("count-from 0", "input 8 u16 step=0.1 set-point");
        ControllerRegisters prefixed = registers("count-from prefixed", "input 30008 u16 step=0.1 set-point");

        assertThat(one.read(INPUT_REGISTER, 7, 1)).hasValue(new int[] {780});
        assertThat(wire.read(INPUT_REGISTER, 8, 1)).hasValue(new int[] {780});
        assertThat(prefixed.read(INPUT_REGISTER, 7, 1)).hasValue(new int[] {780});
    }

    @Test
    void whatIsInNoLineIsNotThereAndWhatIsSpareIsNought() {
        ControllerRegisters registers =
                registers("count-from 1", "holding 1 u16 step=0.1 set-point", "holding 2-3 spare", "coil 1 bit flame");

        assertThat(registers.read(HOLDING_REGISTER, 0, 3)).hasValue(new int[] {780, 0, 0});
        assertThat(registers.read(HOLDING_REGISTER, 0, 4)).isEmpty();
        assertThat(registers.has(DISCRETE_INPUT)).isFalse();
        assertThat(registers.has(COIL)).isTrue();
        assertThat(registers.read(COIL, 0, 1)).hasValue(new int[] {0});
    }

    @Test
    void registersOfBothTablesAreTheSame() {
        ControllerRegisters registers = registers("both 0x0010 u16 step=0.1 set-point");

        assertThat(registers.read(INPUT_REGISTER, 16, 1)).hasValue(new int[] {780});
        assertThat(registers.read(HOLDING_REGISTER, 16, 1)).hasValue(new int[] {780});
    }

    @Test
    void aSensorThatIsNotThereHasItsPattern() {
        assertThat(registers("input 1 sm16 none=0x8000 not-fitted").read(INPUT_REGISTER, 1, 1))
                .hasValue(new int[] {0x8000});
    }

    @Test
    void wordsHaveTheirNumbers() {
        ControllerRegisters registers = registers("codes phase: 0 standby | 7 pre-purge", "input 1 u16 phase");
        assertThat(registers.read(INPUT_REGISTER, 1, 1)).hasValue(new int[] {0});
        while (boiler.state().phase().text().equals("standby")) {
            boiler.step();
        }

        registers.show(boiler.state());

        assertThat(registers.read(INPUT_REGISTER, 1, 1)).hasValue(new int[] {7});
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = ';',
            value = {
                "sheet 1 u16 phase; 'sheet' is no table",
                "input 1 u16 phases; there is no signal 'phases'",
                "input 1 u16 stop=1 phase; 'stop=1' is neither step, offset nor none",
                "input 1 u99 phase; there is no form 'u99'",
            })
    void aLineThatIsNotUnderstoodIsToldWithItsPlace(String line, String message) {
        assertThatThrownBy(() -> TableReader.read("t.txt", List.of("", line))).hasMessage("t.txt:2: " + message);
    }

    @ParameterizedTest
    @MethodSource("shipped")
    void everyShippedTableShowsEveryMomentOfItsBoiler(String table, BoilerSettings settings) {
        Boiler its = new Boiler(settings, 3, BEGINS);
        ControllerRegisters registers = new ControllerRegisters(RegisterTable.shipped(table));

        for (int i = 0; i < 3000; i++) {
            its.step();
            registers.show(its.state());
        }
    }

    static Stream<Arguments> shipped() {
        return Stream.of(
                Arguments.of("hot-water", Blueprints.boiler1()),
                Arguments.of("hot-water-old", Blueprints.boiler2()),
                Arguments.of("steam", Blueprints.steam1()));
    }

    private ControllerRegisters registers(String... lines) {
        ControllerRegisters registers = new ControllerRegisters(TableReader.read("t.txt", List.of(lines)));
        registers.show(boiler.state());
        return registers;
    }
}
