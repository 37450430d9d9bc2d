package burnerbridge.simulator.controller;

import static burnerbridge.simulator.modbus.ModbusTable.COIL;
import static burnerbridge.simulator.modbus.ModbusTable.DISCRETE_INPUT;
import static burnerbridge.simulator.modbus.ModbusTable.HOLDING_REGISTER;
import static burnerbridge.simulator.modbus.ModbusTable.INPUT_REGISTER;

import burnerbridge.simulator.modbus.ModbusTable;
import burnerbridge.simulator.modbus.RegisterImage;
import burnerbridge.simulator.plant.BurnerState;
import burnerbridge.simulator.plant.Cause;
import burnerbridge.simulator.plant.Phase;
import java.util.Optional;

/**
 * The register sheet of the invented hot-water controller, filled from a burner's state. The numbers,
 * steps and codes are made up for it; the point list of the example site is written from the same sheet.
 */
final class HotWaterRegisters implements RegisterImage {
    private volatile Cells cells = new Cells();

    /** Shows a state from now on, all of it at once. */
    void show(BurnerState state) {
        cells = cellsOf(state);
    }

    @Override
    public Optional<int[]> read(ModbusTable table, int address, int count) {
        return cells.read(table, address, count);
    }

    private static Cells cellsOf(BurnerState s) {
        return new Cells()
                .unsigned(INPUT_REGISTER, 1, code(s.phase()))
                .signed(INPUT_REGISTER, 2, s.waterTemperature() * 10)
                .unsigned(INPUT_REGISTER, 3, (s.flueTemperature() + 50) * 10)
                .unsigned(INPUT_REGISTER, 4, s.firingRate() * 10)
                .unsigned(INPUT_REGISTER, 5, s.oxygen() * 100)
                .unsigned(INPUT_REGISTER, 6, s.fanSpeed())
                .unsigned(INPUT_REGISTER, 7, s.gasPressureMillibar() * 10)
                .signed(INPUT_REGISTER, 8, s.furnacePressurePascal() * 10)
                .signed(INPUT_REGISTER, 9, s.airActuator() * 10)
                .signed(INPUT_REGISTER, 10, s.fuelActuator() * 10)
                .unsigned(INPUT_REGISTER, 11, s.flameSignal() * 2)
                .floatHighWordFirst(INPUT_REGISTER, 21, s.thermalPower())
                .floatLowWordFirst(INPUT_REGISTER, 23, s.gasFlow())
                .unsigned(INPUT_REGISTER, 30, statusWord(s))
                .unsigned(HOLDING_REGISTER, 101, code(s.cause()))
                .unsigned(HOLDING_REGISTER, 111, s.starts())
                .unsigned(HOLDING_REGISTER, 112, Math.floor(s.runHours()))
                .bit(DISCRETE_INPUT, 1, s.flamePresent())
                .bit(DISCRETE_INPUT, 2, s.lockout())
                .bit(COIL, 17, s.mainValve());
    }

    /** Bit 0 call for heat, bit 3 air proven, bit 6 pilot valve. */
    private static int statusWord(BurnerState s) {
        return (s.callForHeat() ? 1 : 0) | (s.airProven() ? 1 << 3 : 0) | (s.pilotValve() ? 1 << 6 : 0);
    }

    private static int code(Phase phase) {
        return switch (phase) {
            case STANDBY -> 0;
            case PRE_PURGE -> 12;
            case PILOT_TRIAL -> 20;
            case MAIN_TRIAL -> 24;
            case FIRING -> 31;
            case POST_PURGE -> 40;
            case LOCKOUT -> 77;
        };
    }

    private static int code(Cause cause) {
        return switch (cause) {
            case NONE -> 0;
            case LOW_GAS_PRESSURE -> 6;
            case NO_PILOT_FLAME -> 14;
            case NO_MAIN_FLAME -> 15;
            case FLAME_LOST -> 18;
        };
    }
}
