package burnerbridge.site;

import java.util.Optional;

/**
 * A run of addresses of one table.
 *
 * @param first the first wire address, 0 to 65535
 * @param last the last one, included
 */
public record AddressRange(RegisterTable table, int first, int last) {
    public AddressRange {
        if (first < 0 || last > 0xFFFF || first > last) {
            throw new IllegalArgumentException("a range runs from one wire address of 0 to 65535 to a higher one (was "
                    + first + " to " + last + ")");
        }
    }

    /** So many addresses from one on. */
    public static AddressRange of(RegisterTable table, int first, int count) {
        return new AddressRange(table, first, first + count - 1);
    }

    public int count() {
        return last - first + 1;
    }

    /** The same addresses of another table. */
    public AddressRange in(RegisterTable other) {
        return new AddressRange(other, first, last);
    }

    /** The same range so many addresses higher, as far as its table goes. */
    Optional<AddressRange> shiftedBy(int addresses) {
        return first + addresses > 0xFFFF
                ? Optional.empty()
                : Optional.of(new AddressRange(table, first + addresses, Math.min(0xFFFF, last + addresses)));
    }

    /** How many addresses are in both. */
    public int common(AddressRange other) {
        return table == other.table ? Math.max(0, Math.min(last, other.last) - Math.max(first, other.first) + 1) : 0;
    }

    public boolean overlaps(AddressRange other) {
        return common(other) > 0;
    }

    /** For messages: {@code holding-register wire 100..101}. */
    @Override
    public String toString() {
        return table.word() + " wire " + first + (count() == 1 ? "" : ".." + last);
    }
}
