package burnerbridge.simulator.modbus;

import java.util.Optional;

/** The coils, inputs and registers of one unit, as its Modbus port shows them. */
public interface RegisterImage {

    /**
     * What stands at so many addresses of a table, all of one moment. Called by several threads.
     *
     * @param address the first, as it travels: 0 to 65535
     * @return registers as 0 to 65535, bits as 0 or 1; empty where one of the addresses does not exist
     */
    Optional<int[]> read(ModbusTable table, int address, int count);

    /** How many addresses of a table it answers for in one request; the protocol's limit unless it says less. */
    default int longest(ModbusTable table) {
        return table.mostPerRequest();
    }

    /** Whether it has a table at all; without it the function that reads it is absent. */
    default boolean has(ModbusTable table) {
        return true;
    }
}
