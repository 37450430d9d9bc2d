package burnerbridge.site;

/** A Modbus unit identifier, 0 to 255. Which of them a line takes depends on the line. */
public record UnitId(int number) {

    public UnitId {
        if (number < 0 || number > 255) {
            throw new IllegalArgumentException("a unit identifier is 0 to 255 (was " + number + ")");
        }
    }

    @Override
    public String toString() {
        return Integer.toString(number);
    }
}
