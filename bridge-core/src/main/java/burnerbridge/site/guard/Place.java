package burnerbridge.site.guard;

import burnerbridge.site.AddressRange;
import burnerbridge.site.PointDefinition;
import burnerbridge.site.PointFormat;
import java.util.List;
import java.util.Locale;

/**
 * Some bits of a run of addresses.
 *
 * @param mask which bits of each register, 1 to 0xFFFF; 1 for coils and discrete inputs
 */
public record Place(AddressRange range, int mask) {
    public static final int WHOLE_REGISTER = 0xFFFF;

    public Place {
        int all = allOf(range);
        if (mask < 1 || (mask & ~all) != 0) {
            throw new IllegalArgumentException("the bits of " + range.table().word() + " are 1 to 0x"
                    + Integer.toHexString(all) + " (was 0x" + Integer.toHexString(mask) + ")");
        }
    }

    private static int allOf(AddressRange range) {
        return range.table().ofBits() ? 1 : WHOLE_REGISTER;
    }

    /** All bits of a run of addresses. */
    public static Place whole(AddressRange range) {
        return new Place(range, allOf(range));
    }

    /** The bits that the value of a row is made of. */
    public static List<Place> readBy(PointDefinition point) {
        int mask = mask(point.format());
        return point.addresses().stream()
                .map(range -> range.table().ofBits() ? whole(range) : new Place(range, mask))
                .toList();
    }

    /** All that a write of a row can change: whole registers, whatever bits its value is made of. */
    public static List<Place> writtenBy(PointDefinition point) {
        return point.addresses().stream().map(Place::whole).toList();
    }

    private static int mask(PointFormat format) {
        if (format instanceof PointFormat.RegisterBit bit) {
            return 1 << bit.index();
        }
        if (format instanceof PointFormat.BitField field) {
            return (1 << field.count()) - 1 << field.low();
        }
        if (format instanceof PointFormat.HalfRegister half) {
            return half.high() ? 0xFF00 : 0x00FF;
        }
        return WHOLE_REGISTER;
    }

    boolean isOfBits() {
        return range.table().ofBits();
    }

    /** Whether the numbers of addresses and bits meet, whatever the tables. */
    boolean meets(Place other) {
        return range.first() <= other.range.last() && other.range.first() <= range.last() && (mask & other.mask) != 0;
    }

    /** For messages: {@code holding-register wire 100..101}, with the bits where they are not all. */
    @Override
    public String toString() {
        return mask == allOf(range)
                ? range.toString()
                : range + " bits 0x" + Integer.toHexString(mask).toUpperCase(Locale.ROOT);
    }
}
