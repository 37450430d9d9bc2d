package burnerbridge.bacnet.edge.coding;

import org.jspecify.annotations.Nullable;

/**
 * One tag of service data with its content (ASHRAE 135, 20.2.1).
 *
 * @param content empty for opening and closing tags and for application booleans, whose value stands in
 *     the tag itself
 */
public record Tag(Kind kind, boolean context, int number, Octets content) {
    private static final int BOOLEAN = 1;
    private static final int MORE_NUMBER = 15;
    private static final int LENGTH_FOLLOWS = 5;

    public enum Kind {
        PRIMITIVE,
        OPENING,
        CLOSING
    }

    /** Reads the next tag; null where there is none that the standard allows. Never reads past the end. */
    public static @Nullable Tag read(Cursor cursor) {
        int first = cursor.u8();
        int number = first >> 4;
        if (number == MORE_NUMBER) {
            number = cursor.u8();
            if (number < MORE_NUMBER || number == 0xFF) {
                return null;
            }
        }
        boolean context = (first & 0x08) != 0;
        Tag tag = context ? contextTag(number, first & 7, cursor) : applicationTag(number, first & 7, cursor);
        return cursor.ranOut() ? null : tag;
    }

    private static @Nullable Tag contextTag(int number, int lengthValueType, Cursor cursor) {
        return switch (lengthValueType) {
            case 6 -> new Tag(Kind.OPENING, true, number, Octets.of());
            case 7 -> new Tag(Kind.CLOSING, true, number, Octets.of());
            default -> withContent(true, number, lengthValueType, cursor);
        };
    }

    private static @Nullable Tag applicationTag(int number, int lengthValueType, Cursor cursor) {
        if (lengthValueType > LENGTH_FOLLOWS) {
            return null;
        }
        if (number == BOOLEAN) {
            return lengthValueType > 1 ? null : new Tag(Kind.PRIMITIVE, false, number, Octets.of());
        }
        Tag tag = withContent(false, number, lengthValueType, cursor);
        return tag == null || !lengthFits(number, tag.content().length()) ? null : tag;
    }

    private static @Nullable Tag withContent(boolean context, int number, int lengthValueType, Cursor cursor) {
        // A long, compared before it is cast: a length near 2^32 must not come back as a small or negative one.
        long length = lengthValueType < LENGTH_FOLLOWS ? lengthValueType : longLength(cursor);
        if (length > cursor.remaining()) {
            return null;
        }
        return new Tag(Kind.PRIMITIVE, context, number, cursor.take((int) length));
    }

    /** A length that stands in octets of its own; a shorter form that would have done is forgiven. */
    private static long longLength(Cursor cursor) {
        int first = cursor.u8();
        return switch (first) {
            case 254 -> cursor.u16();
            case 255 -> cursor.u32();
            default -> first;
        };
    }

    /** Whether a value of an application type can have so many octets (20.2.2 to 20.2.14). */
    private static boolean lengthFits(int applicationType, int length) {
        return switch (applicationType) {
            case 0 -> length == 0;
            case 2, 3 -> length >= 1 && length <= 8;
            case 4, 10, 11, 12 -> length == 4;
            case 5 -> length == 8;
            case 6 -> true;
            case 7, 8 -> length >= 1;
            case 9 -> length >= 1 && length <= 4;
            default -> false;
        };
    }

    public boolean isContext(Kind kind, int number) {
        return context && this.kind == kind && this.number == number;
    }
}
