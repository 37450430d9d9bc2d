package burnerbridge.simulator.controller;

import burnerbridge.simulator.modbus.ModbusTable;
import java.util.Collections;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.Map;
import java.util.Optional;

/**
 * What stands in a controller's tables at one moment. Written once, by the numbers of the controller's
 * register sheet, which count from 1; read by the addresses that travel, which count from 0.
 */
final class Cells {
    private final Map<ModbusTable, Map<Integer, Integer>> byWireAddress = new EnumMap<>(ModbusTable.class);

    Cells bit(ModbusTable table, int number, boolean value) {
        return put(table, number, value ? 1 : 0);
    }

    /** A whole number of steps as 0 to 65535; what does not fit stops at the end of the range. */
    Cells unsigned(ModbusTable table, int number, double steps) {
        return put(table, number, (int) Math.max(0, Math.min(65535, Math.round(steps))));
    }

    /** A whole number of steps as two's complement; what does not fit stops at the end of the range. */
    Cells signed(ModbusTable table, int number, double steps) {
        return put(table, number, (int) Math.max(-32768, Math.min(32767, Math.round(steps))) & 0xFFFF);
    }

    Cells floatHighWordFirst(ModbusTable table, int number, double value) {
        int bits = Float.floatToIntBits((float) value);
        return put(table, number, bits >>> 16).put(table, number + 1, bits & 0xFFFF);
    }

    Cells floatLowWordFirst(ModbusTable table, int number, double value) {
        int bits = Float.floatToIntBits((float) value);
        return put(table, number, bits & 0xFFFF).put(table, number + 1, bits >>> 16);
    }

    private Cells put(ModbusTable table, int number, int value) {
        if (byWireAddress.computeIfAbsent(table, t -> new HashMap<>()).put(number - 1, value) != null) {
            throw new IllegalStateException(table + " " + number + " is used twice");
        }
        return this;
    }

    /** Empty where one of the addresses does not exist. */
    Optional<int[]> read(ModbusTable table, int address, int count) {
        Map<Integer, Integer> cells = byWireAddress.getOrDefault(table, Collections.emptyMap());
        int[] values = new int[count];
        for (int i = 0; i < count; i++) {
            Integer value = cells.get(address + i);
            if (value == null) {
                return Optional.empty();
            }
            values[i] = value;
        }
        return Optional.of(values);
    }
}
