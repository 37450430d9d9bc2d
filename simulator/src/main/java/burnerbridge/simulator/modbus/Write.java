package burnerbridge.simulator.modbus;

import java.util.Arrays;

/**
 * What a request to write wants.
 *
 * @param table coils or holding registers
 * @param address the first, as it travels
 * @param values for each address; never changed by anybody
 * @param kept which bits of what is there stay, of a mask write; 0 otherwise
 */
@SuppressWarnings("ArrayRecordComponent") // never compared
public record Write(ModbusTable table, int address, int[] values, int kept) {

    public Write(ModbusTable table, int address, int... values) {
        this(table, address, values, 0);
    }

    /** What is there afterwards (Modbus Application Protocol V1.1b3, clause 6.16). */
    int[] onto(int[] before) {
        int[] after = new int[values.length];
        Arrays.setAll(after, i -> before[i] & kept | values[i] & ~kept);
        return after;
    }

    /** The same with every value another one. */
    public Write changed() {
        int[] others = new int[values.length];
        Arrays.setAll(others, i -> table.holdsBits() ? 1 - values[i] : values[i] ^ 1);
        return new Write(table, address, others, kept & ~1);
    }
}
