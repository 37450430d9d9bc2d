package burnerbridge.site;

import java.util.Locale;

/** The four primary tables of the Modbus data model (Modbus Application Protocol V1.1b3, 4.3). */
public enum RegisterTable {
    COIL(1, true, 0),
    DISCRETE_INPUT(2, true, 1),
    INPUT_REGISTER(4, false, 3),
    HOLDING_REGISTER(3, false, 4);

    private final int readFunction;
    private final boolean ofBits;
    private final int prefix;

    RegisterTable(int readFunction, boolean ofBits, int prefix) {
        this.readFunction = readFunction;
        this.ofBits = ofBits;
        this.prefix = prefix;
    }

    /** The function code that reads this table: 1 to 4. */
    public int readFunction() {
        return readFunction;
    }

    /** Whether an address of this table is one bit rather than a 16-bit word. */
    public boolean ofBits() {
        return ofBits;
    }

    /** The leading digit of this table in prefixed numbering: 0, 1, 3 or 4. */
    public int prefix() {
        return prefix;
    }

    /** The most addresses that one read may ask for (6.1 to 6.4 of the same text). */
    public int mostInOneRead() {
        return ofBits ? 2000 : 125;
    }

    /** The word used in files and messages: {@code holding-register}. */
    public String word() {
        return name().toLowerCase(Locale.ROOT).replace('_', '-');
    }
}
