package burnerbridge.model;

/** Text that a controller holds, such as a serial number. */
public record TextValue(String characters) implements Value {

    @Override
    public String text() {
        return characters;
    }
}
