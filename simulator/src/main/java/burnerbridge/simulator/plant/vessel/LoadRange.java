package burnerbridge.simulator.plant.vessel;

/**
 * Between what a boiler is held, in °C of water or bar of steam.
 *
 * @param setPoint that it is modulated to
 * @param startBelow below which it calls for heat
 * @param stopAbove above which it no longer does
 * @param highLimit above which the burner locks out
 */
public record LoadRange(double setPoint, double startBelow, double stopAbove, double highLimit) {

    public LoadRange {
        if (!(startBelow < setPoint && setPoint < stopAbove && stopAbove < highLimit)) {
            throw new IllegalArgumentException("start below " + startBelow + ", set point " + setPoint + ", stop above "
                    + stopAbove + " and high limit " + highLimit + " must rise in this order");
        }
    }

    /** Whether heat is called for at a value, given whether it was before. */
    boolean calls(double value, boolean before) {
        return value < startBelow || before && value <= stopAbove;
    }
}
