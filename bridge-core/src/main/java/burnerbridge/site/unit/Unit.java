package burnerbridge.site.unit;

import java.util.List;
import java.util.Optional;

/**
 * A unit of the shipped table. There is one object of each, so that two are equal where they are the
 * same.
 *
 * <p>A temperature and a difference of temperatures are two units with one symbol: 10 °C is 50 °F, but
 * 10 °C more is 18 °F more.
 */
public final class Unit {
    /** Of a number without unit. */
    public static final Unit NONE =
            new Unit("", List.of(), Quantity.NONE, false, Ratio.ONE, Ratio.ZERO, 95, "", "", List.of(), "");

    private final String symbol;
    private final List<String> ucumCodes;
    private final Quantity quantity;
    private final boolean difference;
    private final Ratio factor;
    private final Ratio offset;
    private final int bacnetNumber;
    private final String metric;
    private final String imperial;
    private final List<String> oftenWritten;
    private final String source;

    /** The columns of the table. */
    Unit(
            String symbol,
            List<String> ucumCodes,
            Quantity quantity,
            boolean difference,
            Ratio factor,
            Ratio offset,
            int bacnetNumber,
            String metric,
            String imperial,
            List<String> oftenWritten,
            String source) {
        this.symbol = symbol;
        this.ucumCodes = List.copyOf(ucumCodes);
        this.quantity = quantity;
        this.difference = difference;
        this.factor = factor;
        this.offset = offset;
        this.bacnetNumber = bacnetNumber;
        this.metric = metric;
        this.imperial = imperial;
        this.oftenWritten = List.copyOf(oftenWritten);
        this.source = source;
    }

    /**
     * The unit of a symbol or UCUM code.
     *
     * @throws IllegalArgumentException where the table has none
     */
    public static Unit of(String written) {
        return find(written).orElseThrow(() -> new IllegalArgumentException("no unit '" + written + "'"));
    }

    /**
     * The unit of a symbol, or else of a code of the Unified Code for Units of Measure, case-sensitive
     * form. Signs that look the same are the same: m³ is m3, ℃ is °C. Of a temperature, not of a difference.
     */
    public static Optional<Unit> find(String written) {
        return UnitTable.SHIPPED.find(written);
    }

    /** Every unit, differences included, in the order of the table. */
    public static List<Unit> all() {
        return UnitTable.SHIPPED.units();
    }

    /** The symbol as written in the point list and in payloads; empty for none. */
    public String symbol() {
        return symbol;
    }

    /** Codes of the Unified Code for Units of Measure that mean the same; empty where it has none. */
    public List<String> ucumCodes() {
        return ucumCodes;
    }

    public Quantity quantity() {
        return quantity;
    }

    /** Whether it measures how far two temperatures are apart. */
    public boolean isDifference() {
        return difference;
    }

    /** Its number in ASHRAE 135's BACnetEngineeringUnits; 95, no-units, where that has none. */
    public int bacnetNumber() {
        return bacnetNumber;
    }

    /** Spellings that are refused, each with what was probably meant: {@code psig=gauge} for a basis. */
    public List<String> oftenWritten() {
        return oftenWritten;
    }

    /** Where its factor comes from. */
    public String source() {
        return source;
    }

    /** The same unit of a difference; itself where there is no such distinction. */
    public Unit ofDifference() {
        return UnitTable.SHIPPED.difference(this).orElse(this);
    }

    /** What it is shown as on a metric or imperial site; empty where it stays. */
    String symbolIn(UnitSystem system) {
        return switch (system) {
            case METRIC -> metric;
            case IMPERIAL -> imperial;
            case AS_WRITTEN -> "";
        };
    }

    public boolean canBeShownAs(Unit other) {
        return quantity == other.quantity && difference == other.difference;
    }

    /**
     * From a number in this unit to the same in another, exactly.
     *
     * @throws IllegalArgumentException where the other measures something else
     */
    public Linear to(Unit other) {
        if (!canBeShownAs(other)) {
            throw new IllegalArgumentException(this + " cannot be shown as " + other);
        }
        return this == other
                ? Linear.IDENTITY
                : Linear.of(
                        factor.over(other.factor), offset.minus(other.offset).over(other.factor));
    }

    /** The factor and offset to the SI unit of the quantity. */
    Linear toSi() {
        return Linear.of(factor, offset);
    }

    @Override
    public String toString() {
        return symbol + " (" + quantity.withArticle() + (difference ? " difference)" : ")");
    }
}
