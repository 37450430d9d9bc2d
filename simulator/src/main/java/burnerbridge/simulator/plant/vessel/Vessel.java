package burnerbridge.simulator.plant.vessel;

/** What a burner heats, stepped. Not for several threads. */
public interface Vessel {

    /**
     * One step.
     *
     * @param heat that the burner gives, in kW
     * @param dt in seconds
     */
    void step(double heat, double dt);

    /** What the load control holds: °C of water, bar of steam. */
    double controlled();

    /** Temperature of the water or steam, in °C. */
    double temperature();

    /** Whether heat is called for. */
    boolean callsForHeat();

    /** Whether there is too little water in it to be fired. */
    boolean isShortOfWater();

    /** The water that is fed or circulates fails, or no longer does. */
    void failWater(boolean fails);

    VesselState state();
}
