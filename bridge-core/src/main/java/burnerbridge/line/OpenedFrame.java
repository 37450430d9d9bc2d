package burnerbridge.line;

import burnerbridge.site.AddressRange;
import burnerbridge.site.RegisterTable;
import burnerbridge.site.guard.Place;
import burnerbridge.site.permit.Functions;
import java.util.Optional;

/**
 * What stands inside a frame, read field by field (Modbus Application Protocol V1.1b3, 6.5, 6.6, 6.11, 6.12, 6.16). It
 * knows nothing of what made the frame.
 */
final class OpenedFrame {
    private static final int ADDRESS_AT = 2;
    private static final int SECOND_FIELD_AT = 4;
    private static final int THIRD_FIELD_AT = 6;
    private static final int TWO_FIELDS = 5;
    private static final int THREE_FIELDS = 7;
    /** Function, address, count, byte count. */
    private static final int AROUND_VALUES = 6;

    private static final int ON = 0xFF00;
    private static final int REGISTER = 0xFFFF;

    private final byte[] bytes;

    /** @param inside the unit, and behind it the data unit, of one byte at least */
    OpenedFrame(byte[] inside) {
        this.bytes = inside;
    }

    int unit() {
        return at(0);
    }

    int function() {
        return at(1);
    }

    /** Of the data unit. */
    int length() {
        return bytes.length - 1;
    }

    private int at(int place) {
        return place < bytes.length ? bytes[place] & 0xFF : 0;
    }

    private int word(int place) {
        return at(place) << 8 | at(place + 1);
    }

    /** Whether it is as long as a request to read. */
    boolean isAsLongAsARead() {
        return length() == TWO_FIELDS;
    }

    /** What it writes; empty where it is no write, or not one from its first byte to its last. */
    Optional<Place> written() {
        int second = word(SECOND_FIELD_AT);
        return switch (function()) {
            case Functions.SINGLE_COIL ->
                place(length() == TWO_FIELDS && (second == 0 || second == ON), RegisterTable.COIL, 1);
            case Functions.SINGLE_REGISTER -> place(length() == TWO_FIELDS, RegisterTable.HOLDING_REGISTER, 1);
            case Functions.COILS -> place(hasBytes((second + 7) / 8) && isPadded(second), RegisterTable.COIL, second);
            case Functions.REGISTERS -> place(hasBytes(2 * second), RegisterTable.HOLDING_REGISTER, second);
            case Functions.MASK -> masked(~second & REGISTER);
            default -> Optional.empty();
        };
    }

    /** Whether so many bytes of values follow, as its byte count says, too. */
    private boolean hasBytes(int count) {
        return at(THIRD_FIELD_AT) == count && length() == AROUND_VALUES + count;
    }

    /** Whether the bits of the last byte that are no coils are 0. */
    private boolean isPadded(int coils) {
        int used = coils % 8;
        return used == 0 || at(bytes.length - 1) >> used == 0;
    }

    /** @param mask the bits that are not kept, which are those that it writes; it must set no others */
    private Optional<Place> masked(int mask) {
        boolean sound = length() == THREE_FIELDS && mask != 0 && (word(THIRD_FIELD_AT) & ~mask) == 0;
        return place(sound, RegisterTable.HOLDING_REGISTER, 1).map(whole -> new Place(whole.range(), mask));
    }

    private Optional<Place> place(boolean sound, RegisterTable table, int count) {
        int first = word(ADDRESS_AT);
        return sound && count > 0 && first + count <= REGISTER + 1
                ? Optional.of(Place.whole(AddressRange.of(table, first, count)))
                : Optional.empty();
    }
}
