package burnerbridge.simulator.plant;

/** Where a burner stands in its sequence. */
public enum Phase {
    /** Fan off, valves shut, waiting for a call for heat. */
    STANDBY("standby"),
    /** Air through the cold furnace, so that nothing is left in it that could burn. */
    PRE_PURGE("pre-purge"),
    /** Pilot valve open, waiting for the pilot's flame. */
    PILOT_TRIAL("pilot trial"),
    /** Main valves open too, waiting for the main flame. */
    MAIN_TRIAL("main trial"),
    /** Main flame proven, following the load. */
    FIRING("firing"),
    /** Valves shut, air through the furnace. */
    POST_PURGE("post-purge"),
    /** Valves shut until somebody at the burner resets it. */
    LOCKOUT("lockout");

    private final String text;

    Phase(String text) {
        this.text = text;
    }

    /** The phase as people read it. */
    public String text() {
        return text;
    }

    /** Whether gas may flow in this phase. */
    public boolean hasGas() {
        return this == PILOT_TRIAL || this == MAIN_TRIAL || this == FIRING;
    }
}
