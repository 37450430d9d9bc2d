package burnerbridge.simulator.plant.fire;

/**
 * Where something that meters stands, and where it was told to go; both in degrees.
 */
public record Position(double commanded, double actual) {

    /** How far it is from where it was told to go. */
    public double deviation() {
        return actual - commanded;
    }
}
