package burnerbridge.simulator.manners;

import burnerbridge.simulator.frame.Transport;
import java.util.Locale;
import java.util.Optional;

/** A way to misbehave, as people name it. */
public sealed interface Kind permits Misbehaviour, WriteMisbehaviour {

    /** Of its constant. */
    String name();

    /** Its name for people: {@code one-behind}. */
    default String word() {
        return name().toLowerCase(Locale.ROOT).replace('_', '-');
    }

    /** What it does, in a few words. */
    String told();

    /** The number that it needs; empty where it needs none. */
    Optional<Misbehaviour.Argument> argument();

    /** Whether it can happen there. */
    boolean makesSenseOn(Transport transport);
}
