package burnerbridge.site;

import java.time.Duration;
import java.util.List;
import java.util.Optional;

/**
 * What may be said of a type and mostly is not.
 *
 * @param identity a point that differs from controller to controller, so that one that was exchanged is seen
 * @param watchdog after what time without a write the controller itself lets a demand go; empty: never
 * @param readable what a read may cross although no row names it; {@link ReadRules#readable()} says it to readers
 * @param guarded what is never written, whatever a row or a permit says
 * @param separateTables whether it is stated that no address of one table is also one of another; where it is not, a
 *     write counts as one to all tables
 */
public record TypeOptions(
        Optional<Name> identity,
        Optional<Duration> watchdog,
        List<Stated> readable,
        List<Stated> guarded,
        boolean separateTables) {
    public static final TypeOptions NONE = new TypeOptions(Optional.empty(), Optional.empty(), List.of(), List.of());

    /** Options of a type of whose tables nothing is stated. */
    public TypeOptions(
            Optional<Name> identity, Optional<Duration> watchdog, List<Stated> readable, List<Stated> guarded) {
        this(identity, watchdog, readable, guarded, false);
    }

    /**
     * A range and how it is written.
     *
     * @param written in the manual's numbering: {@code holding-register 400-520}
     */
    public record Stated(String written, AddressRange range) {
        /** Both numberings: {@code holding-register 400-520 (wire 399..519)}. */
        @Override
        public String toString() {
            String last = range.count() == 1 ? "" : ".." + range.last();
            return written + " (wire " + range.first() + last + ")";
        }
    }

    public TypeOptions {
        readable = List.copyOf(readable);
        guarded = List.copyOf(guarded);
    }

    /** The same for a controller whose addresses are so many higher; in the manual's numbering they stay. */
    TypeOptions shiftedBy(int addresses) {
        return new TypeOptions(
                identity, watchdog, shifted(readable, addresses), shifted(guarded, addresses), separateTables);
    }

    private static List<Stated> shifted(List<Stated> ranges, int addresses) {
        return ranges.stream()
                .flatMap(stated ->
                        stated.range().shiftedBy(addresses).stream().map(range -> new Stated(stated.written(), range)))
                .toList();
    }
}
