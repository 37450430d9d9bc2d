package burnerbridge.simulator.plant;

import burnerbridge.simulator.value.Named;

/** Who decides what a burner does. */
public enum Mode implements Named {
    OFF("off"),
    HAND("by hand"),
    AUTOMATIC("automatic"),
    EXTERNAL("from outside");

    private final String text;

    Mode(String text) {
        this.text = text;
    }

    @Override
    public String text() {
        return text;
    }
}
