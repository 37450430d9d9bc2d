package burnerbridge.simulator.demo.screen;

/** Where the demo is shown. */
public interface Screen extends AutoCloseable {

    /** Says what runs where and what to look at; above whatever is shown later. */
    void open(String text);

    /** Shows what is now; called a few times a second. */
    void show(Scene scene);

    /** Leaves the terminal as it was. */
    @Override
    void close();
}
