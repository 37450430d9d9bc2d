package burnerbridge.bacnet.edge.coding;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;
import org.jspecify.annotations.Nullable;

/**
 * Reads the parameters of a service out of sound data. The first thing that is wrong is remembered and ends
 * the reading: everything read after it is zero, {@link #more} is false, and the caller asks for the
 * {@link #objection} once.
 */
public final class Parameters {
    private final Cursor cursor;
    private @Nullable RejectReason objection;

    public Parameters(Octets soundData) {
        this.cursor = new Cursor(soundData);
    }

    public Optional<RejectReason> objection() {
        return Optional.ofNullable(objection);
    }

    public void refuse(RejectReason reason) {
        if (objection == null) {
            objection = reason;
        }
    }

    public boolean more() {
        return objection == null && cursor.more();
    }

    /** Whether the next tag is this context tag, of any kind but closing. */
    public boolean next(int number) {
        Tag tag = peek();
        return tag != null && tag.context() && tag.number() == number && tag.kind() != Tag.Kind.CLOSING;
    }

    public boolean nextCloses(int number) {
        Tag tag = peek();
        return tag != null && tag.isContext(Tag.Kind.CLOSING, number);
    }

    public ObjectId objectId(int number) {
        Octets content = primitive(number, 4, 4);
        return ObjectId.ofNumber(content.number());
    }

    /** A property's number: 22 bits. */
    public int property(int number) {
        return (int) unsigned(number, ObjectId.LAST_INSTANCE);
    }

    /** An array index; more than 31 bits have no array. */
    public OptionalLong arrayIndex(int number) {
        return next(number) ? OptionalLong.of(unsigned(number, Integer.MAX_VALUE)) : OptionalLong.empty();
    }

    public long unsigned(int number, long greatest) {
        long value = primitive(number, 1, 4).number();
        if (value > greatest) {
            refuse(RejectReason.PARAMETER_OUT_OF_RANGE);
        }
        return value;
    }

    public boolean bool(int number) {
        long value = primitive(number, 1, 1).number();
        if (value > 1) {
            refuse(RejectReason.PARAMETER_OUT_OF_RANGE);
        }
        return value == 1;
    }

    public Octets primitive(int number, int shortest, int longest) {
        Tag tag = take(Tag.Kind.PRIMITIVE, number);
        if (tag == null) {
            return Octets.of();
        }
        int length = tag.content().length();
        if (length < shortest || length > longest) {
            refuse(RejectReason.INVALID_PARAMETER_DATA_TYPE);
            return Octets.of();
        }
        return tag.content();
    }

    /** A value of an application type. */
    public Octets application(int type, int shortest, int longest) {
        if (objection != null) {
            return Octets.of();
        }
        if (!cursor.more()) {
            refuse(RejectReason.MISSING_REQUIRED_PARAMETER);
            return Octets.of();
        }
        Tag tag = Tag.read(cursor);
        if (tag == null || tag.context() || tag.number() != type) {
            refuse(RejectReason.INVALID_TAG);
            return Octets.of();
        }
        int length = tag.content().length();
        if (length < shortest || length > longest) {
            refuse(RejectReason.INVALID_PARAMETER_DATA_TYPE);
            return Octets.of();
        }
        return tag.content();
    }

    public void open(int number) {
        take(Tag.Kind.OPENING, number);
    }

    public void close(int number) {
        take(Tag.Kind.CLOSING, number);
    }

    /** All tags between an opening tag, which must come next, and its closing one. */
    public List<Tag> anything(int number) {
        open(number);
        if (nextCloses(number)) {
            refuse(RejectReason.MISSING_REQUIRED_PARAMETER);
        }
        List<Tag> tags = new ArrayList<>(1);
        for (int depth = 1; depth > 0 && more(); ) {
            Tag tag = Tag.read(cursor);
            if (tag == null) {
                refuse(RejectReason.INVALID_TAG);
                break;
            }
            if (tag.kind() != Tag.Kind.PRIMITIVE) {
                depth += tag.kind() == Tag.Kind.OPENING ? 1 : -1;
            }
            if (depth > 0) {
                tags.add(tag);
            }
        }
        return tags;
    }

    /** Says that nothing may follow. */
    public void end() {
        if (more()) {
            refuse(RejectReason.TOO_MANY_ARGUMENTS);
        }
    }

    private @Nullable Tag take(Tag.Kind kind, int number) {
        if (objection != null) {
            return null;
        }
        if (!cursor.more()) {
            refuse(RejectReason.MISSING_REQUIRED_PARAMETER);
            return null;
        }
        Tag tag = Tag.read(cursor);
        if (tag == null || !tag.isContext(kind, number)) {
            refuse(RejectReason.INVALID_TAG);
            return null;
        }
        return tag;
    }

    private @Nullable Tag peek() {
        return more() ? Tag.read(cursor.ahead()) : null;
    }
}
