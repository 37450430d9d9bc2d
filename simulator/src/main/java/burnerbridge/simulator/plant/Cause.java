package burnerbridge.simulator.plant;

/** Why a burner locked out. */
public enum Cause {
    NONE("none"),
    LOW_GAS_PRESSURE("gas pressure low"),
    NO_PILOT_FLAME("no pilot flame"),
    NO_MAIN_FLAME("no main flame"),
    FLAME_LOST("flame lost");

    private final String text;

    Cause(String text) {
        this.text = text;
    }

    /** The cause as people read it. */
    public String text() {
        return text;
    }
}
