package burnerbridge.simulator.modbus;

/** A unit of which some registers and coils can be written. Called by several threads. */
public interface WritableImage extends RegisterImage {

    /** What a unit says to a write before it does it. */
    enum Verdict {
        ACCEPTED,
        /** One of the addresses is not there, or not to be written. */
        NO_ADDRESS,
        /** A value is none that it takes. */
        NO_VALUE
    }

    /** Whether it has functions that write at all; without them they are absent. */
    boolean takesWrites();

    /** Whether it would take a write; it changes nothing. */
    Verdict judge(ModbusTable table, int address, int[] values);

    /** Writes what it would take. */
    void write(ModbusTable table, int address, int[] values);
}
