package burnerbridge.simulator.modbus;

import java.util.Arrays;
import java.util.Optional;

/**
 * The four tables, with the function that reads each and how much one request may ask for (Modbus
 * Application Protocol V1.1b3, clauses 6.1 to 6.4).
 */
public enum ModbusTable {
    COIL(1, 2000),
    DISCRETE_INPUT(2, 2000),
    HOLDING_REGISTER(3, 125),
    INPUT_REGISTER(4, 125);

    private final int readFunction;
    private final int mostPerRequest;

    ModbusTable(int readFunction, int mostPerRequest) {
        this.readFunction = readFunction;
        this.mostPerRequest = mostPerRequest;
    }

    public int readFunction() {
        return readFunction;
    }

    public int mostPerRequest() {
        return mostPerRequest;
    }

    /** Whether it holds single bits rather than registers. */
    public boolean holdsBits() {
        return this == COIL || this == DISCRETE_INPUT;
    }

    static Optional<ModbusTable> readBy(int function) {
        return Arrays.stream(values()).filter(t -> t.readFunction == function).findFirst();
    }
}
