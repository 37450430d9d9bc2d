package burnerbridge.simulator.registers;

import burnerbridge.simulator.modbus.ModbusTable;
import burnerbridge.simulator.modbus.WritableImage;
import burnerbridge.simulator.plant.Boiler;
import burnerbridge.simulator.plant.BoilerState;
import java.util.Optional;
import java.util.function.Consumer;

/**
 * The registers of a controller, filled from the state of its boiler. Where it is told to, it takes writes of the
 * registers that say what the plant above wants, and the boiler obeys. For any number of threads.
 */
public final class ControllerRegisters implements WritableImage {
    private final RegisterTable table;
    private volatile Cells cells = new Cells();
    private volatile Optional<Consumer<Consumer<Boiler>>> boiler = Optional.empty();

    public ControllerRegisters(RegisterTable table) {
        this.table = table;
    }

    /** Shows a state from now on, all of it at once. */
    public void show(BoilerState state) {
        Cells filled = new Cells();
        table.rows().forEach(row -> row.write(filled, state));
        cells = filled;
    }

    /** @param acts does something at the boiler, and shows what became of it; empty: from now on nothing is written */
    public void acceptWrites(Optional<Consumer<Consumer<Boiler>>> acts) {
        boiler = acts;
    }

    @Override
    public boolean takesWrites() {
        return boiler.isPresent();
    }

    @Override
    public Verdict judge(ModbusTable of, int address, int[] values) {
        for (int i = 0; i < values.length; i++) {
            Optional<Row> row = table.toldAt(of, address + i);
            if (row.isEmpty()) {
                return Verdict.NO_ADDRESS;
            }
            if (!row.get().takes(values[i])) {
                return Verdict.NO_VALUE;
            }
        }
        return Verdict.ACCEPTED;
    }

    @Override
    public void write(ModbusTable of, int address, int[] values) {
        boiler.ifPresent(acts -> {
            for (int i = 0; i < values.length; i++) {
                int value = values[i];
                table.toldAt(of, address + i).ifPresent(row -> acts.accept(told -> row.tell(told, value)));
            }
        });
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
