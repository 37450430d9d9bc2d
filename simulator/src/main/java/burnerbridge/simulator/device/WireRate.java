package burnerbridge.simulator.device;

import java.time.Duration;

/**
 * How fast characters are on a serial line.
 *
 * @param baud bits a second, 1 or more
 * @param bitsPerCharacter start, data, parity and stop bits: 10 to 12
 */
public record WireRate(int baud, int bitsPerCharacter) {
    private static final int FASTEST_OF_CHARACTERS = 19_200;
    private static final long FIXED_SILENCE = 1_750_000;
    private static final long SECOND = 1_000_000_000;

    public WireRate {
        if (baud < 1) {
            throw new IllegalArgumentException("a baud rate is 1 or more (was " + baud + ")");
        }
        if (bitsPerCharacter < 10 || bitsPerCharacter > 12) {
            throw new IllegalArgumentException("a character has 10 to 12 bits (was " + bitsPerCharacter + ")");
        }
    }

    /** How long so many characters take. */
    public Duration timeOf(int characters) {
        return Duration.ofNanos(nanosOf(characters));
    }

    long nanosOf(int characters) {
        return SECOND * characters * bitsPerCharacter / baud;
    }

    /**
     * What must lie between two frames: 3.5 characters, or 1.75 ms above 19,200 baud (MODBUS over Serial
     * Line V1.02, clause 2.5.1.1).
     */
    Duration silence() {
        return Duration.ofNanos(baud > FASTEST_OF_CHARACTERS ? FIXED_SILENCE : nanosOf(7) / 2);
    }
}
