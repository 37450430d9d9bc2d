package burnerbridge.health;

import java.util.function.Consumer;

/** A part that knows what is wrong with it. */
@FunctionalInterface
public interface HealthSource {
    /** One with which nothing is ever wrong. */
    HealthSource NONE = troubles -> {};

    /** Tells everything that is wrong with it right now. For any thread; does no I/O and does not wait. */
    void tell(Consumer<Trouble> troubles);
}
