package burnerbridge.simulator.registers;

import burnerbridge.simulator.modbus.ModbusTable;
import burnerbridge.simulator.plant.Boiler;
import burnerbridge.simulator.plant.BoilerState;
import burnerbridge.simulator.value.Named;
import java.time.Instant;
import java.time.ZoneId;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;

/**
 * A row of a register table.
 *
 * @param tables in which it stands; two where they are mirrored
 * @param address as it travels
 * @param step the value of one more in the register
 * @param offset the value of 0 in the register
 * @param none what the register holds where there is no sensor
 * @param codes the numbers of words, where it tells one
 * @param command what a write of it tells the boiler; empty where it cannot be written
 */
record Row(
        List<ModbusTable> tables,
        int address,
        Form form,
        double step,
        double offset,
        OptionalInt none,
        Map<String, Integer> codes,
        Signal signal,
        Optional<Command> command) {
    /** Where the plant stands; its controllers show local time. */
    private static final ZoneId ZONE = ZoneId.of("Europe/Lisbon");

    /** Whether it is written at an address. */
    boolean isToldAt(ModbusTable table, int at) {
        return command.isPresent() && address == at && tables.contains(table) && table != ModbusTable.INPUT_REGISTER;
    }

    /** Whether it takes what a register is to hold. */
    boolean takes(int register) {
        return command.filter(own -> own.takes(value(register))).isPresent();
    }

    void tell(Boiler boiler, int register) {
        command.ifPresent(own -> own.telling().tell(boiler, value(register)));
    }

    private double value(int register) {
        return register * step + offset;
    }

    void write(Cells cells, BoilerState state) {
        Object value = signal.of(state);
        boolean absent = value instanceof Double number && number.isNaN();
        for (ModbusTable table : tables) {
            if (absent) {
                cells.word(table, address, none.orElseThrow());
            } else {
                form.write(cells, table, address, shown(value));
            }
        }
    }

    private Shown shown(Object value) {
        if (value instanceof String text) {
            return new Shown.Text(text);
        }
        if (value instanceof Instant at) {
            return new Shown.Moment(at, ZONE);
        }
        if (value instanceof Boolean on) {
            return new Shown.Steps(on ? 1 : 0);
        }
        if (value instanceof Named named) {
            return new Shown.Steps(code(named));
        }
        return new Shown.Steps((((Number) value).doubleValue() - offset) / step);
    }

    private int code(Named named) {
        Integer code = codes.get(named.text());
        if (code == null) {
            throw new IllegalStateException("the table has no number for '" + named.text() + "'");
        }
        return code;
    }
}
