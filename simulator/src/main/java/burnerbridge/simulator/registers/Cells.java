package burnerbridge.simulator.registers;

import burnerbridge.simulator.modbus.ModbusTable;
import java.util.Collections;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.Map;
import java.util.Optional;

/**
 * What stands in a controller's tables at one moment, by the addresses that travel. Each bit is written
 * once; several rows may share a register as long as they share no bit of it.
 */
final class Cells {
    private static final int WHOLE = 0xFFFF;

    private final Map<ModbusTable, Map<Integer, Integer>> values = new EnumMap<>(ModbusTable.class);
    private final Map<ModbusTable, Map<Integer, Integer>> used = new EnumMap<>(ModbusTable.class);

    /** A whole register, or the bit of a coil or discrete input. */
    void word(ModbusTable table, int address, int value) {
        part(table, address, WHOLE, value);
    }

    /**
     * Some bits of a register.
     *
     * @param mask which
     * @param value in its place; what lies outside of the mask must be 0
     */
    void part(ModbusTable table, int address, int mask, int value) {
        if ((value & ~mask) != 0) {
            throw new IllegalArgumentException(table + " " + address + ": " + value + " does not fit");
        }
        Map<Integer, Integer> taken = used.computeIfAbsent(table, t -> new HashMap<>());
        if ((taken.getOrDefault(address, 0) & mask) != 0) {
            throw new IllegalStateException(table + " " + address + " is used twice");
        }
        taken.merge(address, mask, (a, b) -> a | b);
        values.computeIfAbsent(table, t -> new HashMap<>()).merge(address, value, (a, b) -> a | b);
    }

    /** Empty where one of the addresses does not exist. */
    Optional<int[]> read(ModbusTable table, int address, int count) {
        Map<Integer, Integer> cells = values.getOrDefault(table, Collections.emptyMap());
        int[] read = new int[count];
        for (int i = 0; i < count; i++) {
            Integer value = cells.get(address + i);
            if (value == null) {
                return Optional.empty();
            }
            read[i] = value;
        }
        return Optional.of(read);
    }
}
