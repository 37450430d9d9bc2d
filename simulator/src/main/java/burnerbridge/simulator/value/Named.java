package burnerbridge.simulator.value;

/** One of a few things that a controller shows as a number and people read as a word. */
public interface Named {

    /** As people read it. */
    String text();
}
