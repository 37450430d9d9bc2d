package burnerbridge.simulator.plant;

import burnerbridge.simulator.value.Named;

/** Why a burner locked out. */
public enum Cause implements Named {
    NONE("none"),
    LOW_GAS_PRESSURE("gas pressure low"),
    LOW_OIL_PRESSURE("oil pressure low"),
    AIR_NOT_PROVEN("combustion air not proven"),
    NOT_AT_LIGHT_OFF("not in light-off position"),
    DAMPER_ASTRAY("air damper off its curve"),
    NO_PILOT_FLAME("no pilot flame"),
    NO_MAIN_FLAME("no main flame"),
    FLAME_LOST("flame lost"),
    HIGH_LIMIT("high limit"),
    LOW_WATER("low water");

    private final String text;

    Cause(String text) {
        this.text = text;
    }

    /** The cause as people read it. */
    @Override
    public String text() {
        return text;
    }
}
