package burnerbridge.simulator.modbus;

import java.util.Arrays;
import java.util.Optional;

/** A run of values in one table, and nothing else. */
public final class FixedImage implements RegisterImage {
    private final ModbusTable table;
    private final int first;
    private final int[] values;

    public FixedImage(ModbusTable table, int first, int... values) {
        this.table = table;
        this.first = first;
        this.values = values.clone();
    }

    /** Bits written as a text of 0 and 1, the one of the lowest address first. */
    static FixedImage ofBits(ModbusTable table, int first, String bits) {
        return new FixedImage(table, first, bits.chars().map(c -> c - '0').toArray());
    }

    @Override
    public Optional<int[]> read(ModbusTable from, int address, int count) {
        int start = address - first;
        return from != table || start < 0 || start + count > values.length
                ? Optional.empty()
                : Optional.of(Arrays.copyOfRange(values, start, start + count));
    }
}
