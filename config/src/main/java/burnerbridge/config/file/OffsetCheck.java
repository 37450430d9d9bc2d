package burnerbridge.config.file;

import burnerbridge.config.file.SiteFile.ControllerEntry;
import burnerbridge.config.problem.Problems;
import burnerbridge.site.AddressRange;
import burnerbridge.site.ControllerType;
import burnerbridge.site.PointDefinition;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;

/** Moves the types of controllers that have an address offset, and holds them against their neighbours. */
public final class OffsetCheck {
    private static final int END = 65536;

    private final Problems problems;
    private final List<Moved> before = new ArrayList<>();

    private record Moved(ControllerEntry entry, ControllerType type) {
        /** Two with one offset are told as two at one unit. */
        boolean isMovedWithin(ControllerEntry other) {
            return entry.addressOffset() != other.addressOffset()
                    && entry.line().equals(other.line())
                    && entry.unit().equals(other.unit());
        }
    }

    public OffsetCheck(Problems problems) {
        this.problems = problems;
    }

    /** The type as the controller has it; unmoved where that cannot be. */
    public ControllerType moved(ControllerEntry entry, ControllerType type) {
        Optional<PointDefinition> outside = type.points().stream()
                .filter(point -> lastOf(point) + entry.addressOffset() >= END)
                .max(Comparator.comparingInt(OffsetCheck::lastOf));
        if (outside.isPresent()) {
            error(
                    entry,
                    "moves " + outside.get().name() + " at " + outside.get().addressText()
                            + " past the end of its table (was " + entry.addressOffset() + ")");
            return type;
        }
        Moved moved = new Moved(entry, type.shiftedBy(entry.addressOffset()));
        before.stream().filter(other -> other.isMovedWithin(entry)).forEach(other -> checkApart(moved, other));
        before.add(moved);
        return moved.type();
    }

    private static int lastOf(PointDefinition point) {
        return point.addresses().stream().mapToInt(AddressRange::last).max().orElseThrow();
    }

    private void checkApart(Moved one, Moved other) {
        for (PointDefinition point : one.type().points()) {
            for (PointDefinition theirs : other.type().points()) {
                if (overlap(one.type(), point, theirs)) {
                    error(
                            one.entry(),
                            "must move " + point.name() + ", now at " + point.addressText() + ", off "
                                    + theirs.name() + " of " + other.entry().name() + " at " + theirs.addressText()
                                    + " (was " + one.entry().addressOffset() + ")");
                    return;
                }
            }
        }
    }

    private static boolean overlap(ControllerType type, PointDefinition one, PointDefinition other) {
        return one.addresses().stream()
                .anyMatch(range -> other.addresses().stream()
                        .anyMatch(theirs -> type.rules().overlap(range, theirs)));
    }

    private void error(ControllerEntry entry, String message) {
        problems.error(
                entry.offsetPlace(),
                "controllers." + entry.name() + "." + SiteFileReader.ADDRESS_OFFSET + ": " + message);
    }
}
