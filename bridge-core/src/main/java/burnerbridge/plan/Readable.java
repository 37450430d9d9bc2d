package burnerbridge.plan;

import burnerbridge.site.AddressRange;
import burnerbridge.site.ControllerType;
import burnerbridge.site.PointDefinition;
import burnerbridge.site.ReadRules;
import burnerbridge.site.RegisterTable;
import burnerbridge.site.SitePoint;
import java.util.BitSet;
import java.util.Collection;
import java.util.EnumMap;
import java.util.Map;

/**
 * The addresses of a type that a read for something else may cross: those of rows of its list and those
 * that the type says can be read, but nothing reserved and nothing that a read clears. Of every other address it is not known what a read would do.
 */
final class Readable {
    private final Map<RegisterTable, BitSet> byTable = new EnumMap<>(RegisterTable.class);
    private final ReadRules rules;

    private Readable(ReadRules rules) {
        this.rules = rules;
    }

    static Readable of(ControllerType type) {
        Readable readable = new Readable(type.rules());
        for (PointDefinition point : type.points()) {
            point.addresses().forEach(range -> readable.set(range, true));
        }
        type.rules().readable().forEach(range -> readable.set(range, true));
        for (PointDefinition point : type.points()) {
            if (point.consistency().once()) {
                point.addresses().forEach(range -> readable.set(range, false));
            }
        }
        type.rules().reserved().forEach(range -> readable.set(range, false));
        return readable;
    }

    /** The same without the addresses of some points; those that others have, too, stay. */
    Readable without(Collection<SitePoint> some, Collection<SitePoint> others) {
        set(some, false);
        set(others, true);
        return this;
    }

    private void set(Collection<SitePoint> points, boolean value) {
        points.forEach(point -> point.definition().addresses().forEach(range -> set(range, value)));
    }

    private void set(AddressRange range, boolean value) {
        of(range.table()).set(range.first(), range.last() + 1, value);
    }

    private BitSet of(RegisterTable table) {
        return byTable.computeIfAbsent(rules.readTable(table), t -> new BitSet());
    }

    /** Whether all addresses from one to another may be crossed; so may none at all. */
    boolean crosses(RegisterTable table, int from, int to) {
        return from > to || of(table).nextClearBit(from) > to;
    }
}
