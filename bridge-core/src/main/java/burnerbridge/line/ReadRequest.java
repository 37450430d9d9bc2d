package burnerbridge.line;

import burnerbridge.site.RegisterTable;
import burnerbridge.site.UnitId;

/**
 * One read of a run of addresses.
 *
 * @param first the wire address, 0 to 65535
 * @param count 1 to 125 registers or 1 to 2000 bits (Modbus Application Protocol V1.1b3, 6.1 to 6.4),
 *     none of them past address 65535
 * @param terms what holds for it besides
 */
public record ReadRequest(UnitId unit, RegisterTable table, int first, int count, ReadTerms terms) implements Request {

    public ReadRequest {
        if (count < 1 || count > table.mostInOneRead()) {
            throw new IllegalArgumentException(
                    "one read of a " + table.word() + " takes 1 to " + table.mostInOneRead() + " (was " + count + ")");
        }
        if (first < 0 || first + count > 65536) {
            throw new IllegalArgumentException("wire addresses are 0 to 65535 (was " + first + " for " + count + ")");
        }
    }

    /** A request on the usual terms. */
    public ReadRequest(UnitId unit, RegisterTable table, int first, int count) {
        this(unit, table, first, count, ReadTerms.USUAL);
    }

    /** The function code that asks it: 1 to 4. */
    @Override
    public int function() {
        return table.readFunction();
    }

    /** For messages: {@code unit 1 holding-register wire 100..101}. */
    @Override
    public String toString() {
        return "unit " + unit + " " + table.word() + " wire " + first + (count == 1 ? "" : ".." + (first + count - 1));
    }
}
