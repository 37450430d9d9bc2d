package burnerbridge.line;

import burnerbridge.site.AddressRange;
import burnerbridge.site.RegisterTable;
import burnerbridge.site.UnitId;
import burnerbridge.site.permit.Functions;

/**
 * All that one permit may ever send, but for the value.
 *
 * @param range what it writes: coils for functions 5 and 15, holding registers otherwise; one address for 5, 6 and 22
 * @param mask for function 22 the bits that it changes, 1 to 0xFFFF; 0 otherwise
 */
public record WriteTemplate(UnitId unit, int function, AddressRange range, int mask) {
    /** The most that one write takes of each table (Modbus Application Protocol V1.1b3, 6.11 and 6.12). */
    private static final int MOST_COILS = 0x7B0;

    private static final int MOST_REGISTERS = 0x7B;

    public WriteTemplate {
        if (unit.number() == 0) {
            throw new IllegalArgumentException("unit 0 is everybody and is never written");
        }
        boolean ofBits = function == Functions.SINGLE_COIL || function == Functions.COILS;
        RegisterTable table = ofBits ? RegisterTable.COIL : RegisterTable.HOLDING_REGISTER;
        if (!Functions.ALL.contains(function) || range.table() != table) {
            throw new IllegalArgumentException("function " + function + " does not write a "
                    + range.table().word());
        }
        boolean single = function != Functions.COILS && function != Functions.REGISTERS;
        int most = single ? 1 : ofBits ? MOST_COILS : MOST_REGISTERS;
        if (range.count() > most) {
            throw new IllegalArgumentException(
                    "function " + function + " writes at most " + most + " (was " + range.count() + ")");
        }
        if (function == Functions.MASK ? mask < 1 || mask > 0xFFFF : mask != 0) {
            throw new IllegalArgumentException("function " + function + " has no mask of " + mask);
        }
    }
}
