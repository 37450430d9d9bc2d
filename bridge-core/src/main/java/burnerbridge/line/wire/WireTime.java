package burnerbridge.line.wire;

import java.time.Duration;

/**
 * How long characters take on a serial line.
 *
 * @param baud bits a second
 * @param bitsPerCharacter start, data, parity and stop bits: 10 to 12
 */
public record WireTime(int baud, int bitsPerCharacter) {
    /** The silence between frames above 19,200 baud (MODBUS over Serial Line V1.02, 2.5.1.1). */
    private static final Duration FIXED_SILENCE = Duration.ofNanos(1_750_000);

    /** Beyond what USB adapters hold back: 16 ms. */
    private static final Duration ADAPTER_PAUSE = Duration.ofMillis(20);

    private static final int FASTEST_WITHOUT = 19_200;

    public Duration ofCharacters(int count) {
        return ofTenths(count * 10L);
    }

    private Duration ofTenths(long tenths) {
        return Duration.ofNanos(tenths * bitsPerCharacter * 100_000_000L / baud);
    }

    /** The least silence between two frames: 3.5 characters, or 1.75 ms on faster lines. */
    public Duration silence() {
        return baud > FASTEST_WITHOUT ? FIXED_SILENCE : ofTenths(35);
    }

    /** How long nothing must come for something wrong to be over. */
    public Duration quiet() {
        return silence().plus(ADAPTER_PAUSE);
    }
}
