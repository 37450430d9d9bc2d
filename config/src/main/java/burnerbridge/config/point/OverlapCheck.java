package burnerbridge.config.point;

import burnerbridge.config.row.PointRow;
import burnerbridge.site.AddressRange;
import burnerbridge.site.Name;
import burnerbridge.site.PointDefinition;
import burnerbridge.site.PointFormat;
import burnerbridge.site.ReadRules;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/**
 * Warns of rows that read the same registers and cannot both be right about them. Several points may read
 * one register: a bit beside its whole, a number beside its states, one value in two units. Each row is
 * told once at most, against the first that it disagrees with.
 */
final class OverlapCheck {
    private final List<PointDefinition> points;
    private final Map<Name, PointRow> rows;
    private final ReadRules rules;
    private final Map<AddressRange, List<PointDefinition>> byAddress = new HashMap<>();

    /** @param rows where each point stands */
    OverlapCheck(List<PointDefinition> points, Map<Name, PointRow> rows, ReadRules rules) {
        this.points = points;
        this.rows = rows;
        this.rules = rules;
    }

    void run() {
        for (PointDefinition point : points) {
            disagreement(point).ifPresent(what -> row(point).warning(what.column(), what.text()));
            singles(point)
                    .forEach(address -> byAddress
                            .computeIfAbsent(address, a -> new ArrayList<>())
                            .add(point));
        }
    }

    /** What is told of a row, and in which column. */
    private record Disagreement(String column, String text) {}

    private PointRow row(PointDefinition point) {
        PointRow row = rows.get(point.name());
        if (row == null) {
            throw new IllegalStateException(point.name() + " has no row");
        }
        return row;
    }

    /** Every address that a point takes, by itself. */
    private List<AddressRange> singles(PointDefinition point) {
        List<AddressRange> singles = new ArrayList<>();
        for (AddressRange range : point.addresses()) {
            AddressRange read = rules.asRead(range);
            for (int address = read.first(); address <= read.last(); address++) {
                singles.add(AddressRange.of(read.table(), address, 1));
            }
        }
        return singles;
    }

    private Optional<Disagreement> disagreement(PointDefinition point) {
        return singles(point).stream()
                .flatMap(address -> byAddress.getOrDefault(address, List.of()).stream())
                .distinct()
                .flatMap(other -> disagreement(point, other).stream())
                .findFirst();
    }

    private Optional<Disagreement> disagreement(PointDefinition point, PointDefinition other) {
        if (row(point).has("when") || row(other).has("when")) {
            // What a register holds then hangs on another point, so that both may be right in turn.
            return Optional.empty();
        }
        RegisterPart part = RegisterPart.of(point.format());
        RegisterPart otherPart = RegisterPart.of(other.format());
        if (!part.isWhole() || !otherPart.isWhole()) {
            return parts(point, part, other, otherPart);
        }
        List<AddressRange> own = point.addresses().stream().map(rules::asRead).toList();
        List<AddressRange> others =
                other.addresses().stream().map(rules::asRead).toList();
        if (own.equals(others)) {
            return sameRegisters(point, other);
        }
        return mayHoldTheOther(point, other) || mayHoldTheOther(other, point)
                ? Optional.empty()
                : Optional.of(new Disagreement(
                        "address",
                        subject(point) + " takes some of the registers of " + subject(other) + place(other)
                                + ": one of the two is probably at another address, or of another format"));
    }

    /** Registers of fields of their own, such as a date's, may have rows of their own too. */
    private static boolean mayHoldTheOther(PointDefinition outer, PointDefinition inner) {
        boolean fields = outer.format() instanceof PointFormat.Calendar
                || outer.format() instanceof PointFormat.DecimalWords
                || outer.format() instanceof PointFormat.Text && inner.format() instanceof PointFormat.Text;
        return fields
                && outer.addresses().get(0).common(inner.addresses().get(0))
                        == inner.format().width();
    }

    private Optional<Disagreement> parts(
            PointDefinition point, RegisterPart part, PointDefinition other, RegisterPart otherPart) {
        if (point.format().equals(other.format())) {
            return meaning(point, other);
        }
        if (part.disagreesWith(otherPart)) {
            return Optional.of(new Disagreement(
                    "format",
                    subject(point) + " takes some of the bits of " + subject(other) + place(other)
                            + " and leaves others"));
        }
        PointDefinition whole = part.isWhole() ? point : other;
        boolean odd = (part.isWhole() || otherPart.isWhole()) && whole.format() instanceof PointFormat.Floating;
        return odd
                ? Optional.of(
                        new Disagreement(
                                "format",
                                subject(point) + " and " + subject(other) + place(other)
                                        + " read the same register, and a floating-point number has no bits of its own to read"))
                : Optional.empty();
    }

    private Optional<Disagreement> sameRegisters(PointDefinition point, PointDefinition other) {
        if (point.format().equals(other.format())) {
            return meaning(point, other);
        }
        if (isSecondsOf(point.format(), other.format()) || isSecondsOf(other.format(), point.format())) {
            return Optional.empty();
        }
        String column = point.format().word().equals(other.format().word()) ? "order" : "format";
        String difference = column.equals("order")
                ? "in another order of words or bytes"
                : "as " + point.format().word();
        return Optional.of(new Disagreement(
                column,
                subject(point) + " reads the very registers of " + other.name() + place(other) + " " + difference
                        + (column.equals("order")
                                ? ""
                                : ", that one as " + other.format().word())
                        + ": only one of the two can be right"));
    }

    private static boolean isSecondsOf(PointFormat time, PointFormat number) {
        return time instanceof PointFormat.Epoch32 && number instanceof PointFormat.Whole whole && !whole.signed();
    }

    /** The same bits, understood alike, and yet not the same value. */
    private Optional<Disagreement> meaning(PointDefinition point, PointDefinition other) {
        boolean bothStates = !point.states().isEmpty() && !other.states().isEmpty();
        if (bothStates
                && point.states().texts().entrySet().stream()
                        .anyMatch(state -> other.states()
                                .text(state.getKey())
                                .filter(text -> !text.equals(state.getValue()))
                                .isPresent())) {
            return Optional.of(told("states", point, other));
        }
        if (!point.states().isEmpty() || !other.states().isEmpty()) {
            return Optional.empty();
        }
        return WrittenValue.firstDifference(row(point), row(other)).map(column -> told(column, point, other));
    }

    private Disagreement told(String column, PointDefinition point, PointDefinition other) {
        return new Disagreement(
                column,
                subject(point) + " reads what " + other.name() + place(other)
                        + " reads, as the same format, with another "
                        + column + ": '" + row(point).text(column) + "' here, '"
                        + row(other).text(column)
                        + "' there; is one of the addresses wrong?");
    }

    private static String subject(PointDefinition point) {
        return point.name() + " (" + point.format().word() + ", " + point.addressText() + ")";
    }

    private String place(PointDefinition point) {
        return " of line " + row(point).place("name").line();
    }
}
