package burnerbridge.site;

import burnerbridge.site.unit.Basis;
import burnerbridge.site.unit.Unit;
import java.math.BigDecimal;
import java.time.Duration;
import java.util.List;
import java.util.OptionalInt;

/**
 * One row of a point list, checked.
 *
 * @param wireAddress the address as it travels, 0 to 65535
 * @param manualAddress the address as the manual has it, for people
 * @param scaling from raw to the value as it is shown
 * @param unit of the value as it is shown
 * @param every how often it is read; zero where it is not polled
 * @param staleAfter how old its last good value may grow
 * @param limits what of its replies is no value
 * @param consistency how it is kept from being torn
 * @param change the smallest change worth telling, in {@code unit}; zero: every change
 * @param basis what the unit does not tell of the value
 * @param options what most rows do not say
 */
public record PointDefinition(
        Name name,
        String description,
        RegisterTable table,
        int wireAddress,
        String manualAddress,
        PointFormat format,
        Scaling scaling,
        Unit unit,
        Role role,
        Duration every,
        Duration staleAfter,
        States states,
        BigDecimal change,
        ObjectKind object,
        Limits limits,
        Consistency consistency,
        Basis basis,
        PointOptions options) {

    public PointDefinition {
        if (wireAddress < 0 || wireAddress + format.width() > 65536) {
            throw new IllegalArgumentException(
                    name + ": " + format.word() + " at wire address " + wireAddress + " does not fit into 0 to 65535");
        }
    }

    /** A point without limits that one read holds whole. */
    public PointDefinition(
            Name name,
            String description,
            RegisterTable table,
            int wireAddress,
            String manualAddress,
            PointFormat format,
            Scaling scaling,
            Unit unit,
            Role role,
            Duration every,
            Duration staleAfter,
            States states,
            BigDecimal change,
            ObjectKind object) {
        this(
                name,
                description,
                table,
                wireAddress,
                manualAddress,
                format,
                scaling,
                unit,
                role,
                every,
                staleAfter,
                states,
                change,
                object,
                Limits.NONE,
                Consistency.ONE_READ,
                Basis.NONE,
                PointOptions.NONE);
    }

    /** The same in a group of points that are read together. */
    public PointDefinition inGroup(Name group) {
        return with(wireAddress, scaling, consistency.inGroup(group), options);
    }

    /** The same with a raw value that has so many decimals. */
    public PointDefinition withDecimals(int count) {
        return with(wireAddress, scaling.withDecimals(count), consistency, options);
    }

    /** The same with other options. */
    public PointDefinition with(PointOptions others) {
        return with(wireAddress, scaling, consistency, others);
    }

    /** The same so many wire addresses higher; in the manual's numbering it stays where it is. */
    PointDefinition shiftedBy(int addresses) {
        return with(wireAddress + addresses, scaling, consistency.shiftedBy(addresses), options);
    }

    private PointDefinition with(
            int otherWire, Scaling otherScaling, Consistency otherConsistency, PointOptions otherOptions) {
        return new PointDefinition(
                name,
                description,
                table,
                otherWire,
                manualAddress,
                format,
                otherScaling,
                unit,
                role,
                every,
                staleAfter,
                states,
                change,
                object,
                limits,
                otherConsistency,
                basis,
                otherOptions);
    }

    public boolean isPolled() {
        return !every.isZero();
    }

    /** Whether the bridge computes it, so that its table and address mean nothing. */
    public boolean isDerived() {
        return format instanceof PointFormat.Count;
    }

    /** Whether it ever has a reading. */
    public boolean hasReadings() {
        return isPolled() || isDerived();
    }

    /** Whether it becomes a BACnet object, once it is bound. */
    public boolean wantsObject() {
        return object != ObjectKind.NONE;
    }

    /** The unit and the basis: {@code bar gauge}; empty where there is neither. */
    public String unitText() {
        return basis.isNone() ? unit.symbol() : unit.symbol() + " " + basis.text();
    }

    /** For where the unit alone is shown: {@code Gas before the valves (gauge)}. */
    public String descriptionWithBasis() {
        return basis.isNone() ? description : (description + " (" + basis.text() + ")").strip();
    }

    /** What its value takes of its table: one range, or two single addresses that are apart. */
    public List<AddressRange> addresses() {
        OptionalInt lower = consistency.lowerWord();
        return lower.isPresent()
                ? List.of(AddressRange.of(table, wireAddress, 1), AddressRange.of(table, lower.getAsInt(), 1))
                : List.of(AddressRange.of(table, wireAddress, format.width()));
    }

    /** Both numberings, for messages: {@code holding-register 40101 (wire 100)}. */
    public String addressText() {
        if (isDerived()) {
            return "derived";
        }
        String lower = consistency.lowerWord().isPresent()
                ? "+" + consistency.lowerWord().getAsInt()
                : "";
        return table.word() + " " + manualAddress + " (wire " + wireAddress + lower + ")";
    }
}
