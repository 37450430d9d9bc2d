package burnerbridge.simulator.modbus;

import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/** A unit that shows what another image does, until it is written: some of its addresses take any value. */
public final class AcceptingImage implements WritableImage {
    private final RegisterImage under;
    private final List<Accepted> accepted;
    private final Map<Cell, Integer> written = new HashMap<>();

    private record Cell(ModbusTable table, int address) {}

    /** A run of addresses that can be written, both ends included. */
    public record Accepted(ModbusTable table, int first, int last) {
        public Accepted {
            if (table != ModbusTable.COIL && table != ModbusTable.HOLDING_REGISTER) {
                throw new IllegalArgumentException("coils and holding registers can be written (was " + table + ")");
            }
            if (first < 0 || first > last || last > 0xFFFF) {
                throw new IllegalArgumentException("addresses run from 0 to 65535 (was " + first + " to " + last + ")");
            }
        }

        boolean holds(Cell cell) {
            return cell.table == table && cell.address >= first && cell.address <= last;
        }
    }

    public AcceptingImage(RegisterImage under, List<Accepted> accepted) {
        this.under = under;
        this.accepted = List.copyOf(accepted);
    }

    @Override
    public boolean takesWrites() {
        return true;
    }

    @Override
    public Verdict judge(ModbusTable table, int address, int[] values) {
        for (int i = 0; i < values.length; i++) {
            Cell cell = new Cell(table, address + i);
            if (accepted.stream().noneMatch(run -> run.holds(cell))) {
                return Verdict.NO_ADDRESS;
            }
        }
        return Verdict.ACCEPTED;
    }

    @Override
    public void write(ModbusTable table, int address, int[] values) {
        set(table, address, values);
    }

    /** Somebody else changes what is there, whether or not it can be written over Modbus. */
    public synchronized void set(ModbusTable table, int address, int... values) {
        for (int i = 0; i < values.length; i++) {
            written.put(new Cell(table, address + i), values[i]);
        }
    }

    @Override
    public synchronized Optional<int[]> read(ModbusTable table, int address, int count) {
        Optional<int[]> read = under.read(table, address, count).map(int[]::clone);
        read.ifPresent(values -> {
            for (int i = 0; i < count; i++) {
                values[i] = written.getOrDefault(new Cell(table, address + i), values[i]);
            }
        });
        return read;
    }

    @Override
    public int longest(ModbusTable table) {
        return under.longest(table);
    }

    @Override
    public boolean has(ModbusTable table) {
        return under.has(table);
    }
}
