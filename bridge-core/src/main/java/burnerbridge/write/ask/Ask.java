package burnerbridge.write.ask;

import burnerbridge.site.PointId;
import burnerbridge.site.permit.Purpose;
import java.util.Optional;
import java.util.OptionalLong;

/**
 * Somebody asks that a point be written.
 *
 * @param slot 1 to 16, of which the lowest that holds anything wins
 * @param notAfter the tick after which it must not be written any more; empty: only the gate's own limit
 * @param request by which a request that came twice is recognised; empty where its protocol repeats none
 */
public record Ask(
        PointId point, Wanted wanted, int slot, Source source, OptionalLong notAfter, Optional<RequestKey> request) {
    public static final int SLOTS = Purpose.Asked.LAST_PRIORITY;
    public static final int KEPT_SLOT = Purpose.Asked.KEPT_PRIORITY;

    public Ask {
        if (slot < 1 || slot > SLOTS) {
            throw new IllegalArgumentException("a slot is 1 to " + SLOTS + " (was " + slot + ")");
        }
    }

    /** An ask that holds as long as the gate lets it, and is never repeated. */
    public Ask(PointId point, Wanted wanted, int slot, Source source) {
        this(point, wanted, slot, source, OptionalLong.empty(), Optional.empty());
    }
}
