package burnerbridge.simulator.plant;

import burnerbridge.simulator.value.Named;

/** Where a burner stands in its sequence. */
public enum Phase implements Named {
    /** Fan off, valves shut, waiting for a call for heat. */
    STANDBY("standby"),
    /** Air through the cold furnace, so that nothing is left in it that could burn. */
    PRE_PURGE("pre-purge"),
    /** Damper, fuel and fan go to where a flame lights best; the spark begins. */
    IGNITION("ignition"),
    /** Pilot valve open, waiting for the pilot's flame. */
    PILOT_TRIAL("pilot flame trial"),
    /** Main valves open too, waiting for the main flame. */
    MAIN_TRIAL("main flame trial"),
    /** Main flame proven, held at low fire until the burner is released to modulate. */
    LOW_FIRE("low fire"),
    /** Following the load. */
    MODULATION("modulation"),
    /** Valves shut, air through the furnace. */
    POST_PURGE("post-purge"),
    /** Valves shut until somebody at the burner resets it. */
    LOCKOUT("lockout");

    private final String text;

    Phase(String text) {
        this.text = text;
    }

    /** The phase as people read it. */
    @Override
    public String text() {
        return text;
    }

    /** Whether fuel may flow in this phase. */
    public boolean hasFuel() {
        return this == PILOT_TRIAL || this == MAIN_TRIAL || isFiring();
    }

    /** Whether the main flame is proven. */
    public boolean isFiring() {
        return this == LOW_FIRE || this == MODULATION;
    }

    /** Whether the burner is in operation, from the start of its sequence to its end. */
    public boolean isRunning() {
        return this != STANDBY && this != LOCKOUT;
    }
}
