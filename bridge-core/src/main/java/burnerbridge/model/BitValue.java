package burnerbridge.model;

/** One bit: a coil, a discrete input, or a bit of a register. */
public record BitValue(boolean on) implements Value {

    @Override
    public String text() {
        return on ? "1" : "0";
    }
}
