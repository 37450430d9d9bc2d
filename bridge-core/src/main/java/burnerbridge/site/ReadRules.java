package burnerbridge.site;

import java.time.Duration;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;

/**
 * What the controllers of a type ask of whoever reads them.
 *
 * @param mirrored whether functions 3 and 4 read the same registers, so that both tables are one; all of
 *     it is then read as holding registers
 * @param limits how much one read may take of registers; bits have the protocol's limit alone
 * @param pause how long a controller is left alone between two requests
 * @param reserved what no read may touch
 * @param readable what a read may cross although no row names it; nothing reserved is in it
 */
public record ReadRules(
        boolean mirrored, ReadLimits limits, Duration pause, List<AddressRange> reserved, List<AddressRange> readable) {
    public static final ReadRules NONE = new ReadRules(false, ReadLimits.NONE, Duration.ZERO, List.of());

    public ReadRules {
        reserved = List.copyOf(reserved);
        readable = List.copyOf(readable);
    }

    /** Rules of a type whose rows alone are known to be readable. */
    public ReadRules(boolean mirrored, ReadLimits limits, Duration pause, List<AddressRange> reserved) {
        this(mirrored, limits, pause, reserved, List.of());
    }

    public ReadRules withReserved(List<AddressRange> ranges) {
        return new ReadRules(mirrored, limits, pause, ranges, readable);
    }

    /** The same for a controller whose addresses are so many higher. */
    ReadRules shiftedBy(int addresses) {
        return new ReadRules(
                mirrored,
                limits.shiftedBy(addresses),
                pause,
                shifted(reserved, addresses),
                shifted(readable, addresses));
    }

    private static List<AddressRange> shifted(List<AddressRange> ranges, int addresses) {
        return ranges.stream()
                .flatMap(range -> range.shiftedBy(addresses).stream())
                .toList();
    }

    /** The table by whose function a table is read. */
    public RegisterTable readTable(RegisterTable table) {
        return mirrored && table == RegisterTable.INPUT_REGISTER ? RegisterTable.HOLDING_REGISTER : table;
    }

    /** The addresses as they are read: the same range of two tables that are one is equal. */
    public AddressRange asRead(AddressRange range) {
        return range.in(readTable(range.table()));
    }

    public boolean overlap(AddressRange one, AddressRange other) {
        return asRead(one).overlaps(asRead(other));
    }

    /** The most addresses that a read may take which takes all of a range. */
    public int most(AddressRange read) {
        if (read.table().ofBits()) {
            return read.table().mostInOneRead();
        }
        int least = ReadLimits.MOST;
        int covered = 0;
        for (ReadLimits.InRange limit : limits.ranges()) {
            int common = asRead(limit.range()).common(asRead(read));
            covered += common;
            least = common > 0 ? Math.min(least, limit.most()) : least;
        }
        return covered < read.count() ? Math.min(least, limits.otherwise()) : least;
    }

    /** The range whose limit makes {@link #most} what it is; empty where it is no range's. */
    public Optional<ReadLimits.InRange> limiting(AddressRange read) {
        return limits.ranges().stream()
                .filter(limit -> overlap(limit.range(), read))
                .min(Comparator.comparingInt(ReadLimits.InRange::most))
                .filter(limit -> limit.most() == most(read));
    }

    /** Why a range must not be read at once; empty where it may. */
    public Optional<String> objectionTo(AddressRange read) {
        if (read.count() > most(read)) {
            return Optional.of(read + " takes " + read.count() + " addresses, and one read takes " + most(read));
        }
        return reserved.stream()
                .filter(range -> overlap(range, read))
                .findFirst()
                .map(range -> read + " reaches into " + range + ", which is reserved");
    }
}
