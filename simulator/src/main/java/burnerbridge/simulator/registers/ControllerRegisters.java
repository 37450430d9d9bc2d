package burnerbridge.simulator.registers;

import burnerbridge.simulator.modbus.ModbusTable;
import burnerbridge.simulator.modbus.RegisterImage;
import burnerbridge.simulator.plant.BoilerState;
import java.util.Optional;

/** The registers of a controller, filled from the state of its boiler. For any number of threads. */
public final class ControllerRegisters implements RegisterImage {
    private final RegisterTable table;
    private volatile Cells cells = new Cells();

    public ControllerRegisters(RegisterTable table) {
        this.table = table;
    }

    /** Shows a state from now on, all of it at once. */
    public void show(BoilerState state) {
        Cells filled = new Cells();
        table.rows().forEach(row -> row.write(filled, state));
        cells = filled;
    }

    @Override
    public Optional<int[]> read(ModbusTable of, int address, int count) {
        return cells.read(of, address, count);
    }

    @Override
    public int longest(ModbusTable of) {
        return of.holdsBits() ? of.mostPerRequest() : table.longest();
    }

    @Override
    public boolean has(ModbusTable of) {
        return table.tables().contains(of);
    }
}
