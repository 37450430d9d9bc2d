package burnerbridge.model;

/**
 * The seed of tests that draw at random. It is always the same, so that a build that fails, fails again; {@code
 * -Dseed=…} draws otherwise.
 */
public final class Seed {
    private Seed() {}

    public static long value() {
        return Long.getLong("seed", 10_407);
    }
}
