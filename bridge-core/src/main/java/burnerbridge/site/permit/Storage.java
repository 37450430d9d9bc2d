package burnerbridge.site.permit;

import java.util.OptionalLong;

/**
 * What a write costs the controller's memory.
 *
 * @param lifetimeWrites how many writes its memory may take of this bridge; empty where the register is volatile, so
 *     that it takes any number
 */
public record Storage(OptionalLong lifetimeWrites) {
    public static final Storage VOLATILE = new Storage(OptionalLong.empty());

    public Storage {
        if (lifetimeWrites.isPresent() && lifetimeWrites.getAsLong() < 1) {
            throw new IllegalArgumentException("a memory takes at least one write");
        }
    }

    /** A memory that wears. */
    public static Storage nonVolatile(long writes) {
        return new Storage(OptionalLong.of(writes));
    }

    public boolean isVolatile() {
        return lifetimeWrites.isEmpty();
    }
}
