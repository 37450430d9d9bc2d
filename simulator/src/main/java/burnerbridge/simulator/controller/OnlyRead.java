package burnerbridge.simulator.controller;

import burnerbridge.simulator.modbus.ModbusTable;
import burnerbridge.simulator.modbus.RegisterImage;
import java.util.Optional;

/** Shows what another image shows, and takes no writes, whatever the other does. */
record OnlyRead(RegisterImage image) implements RegisterImage {

    @Override
    public Optional<int[]> read(ModbusTable table, int address, int count) {
        return image.read(table, address, count);
    }

    @Override
    public int longest(ModbusTable table) {
        return image.longest(table);
    }

    @Override
    public boolean has(ModbusTable table) {
        return image.has(table);
    }
}
