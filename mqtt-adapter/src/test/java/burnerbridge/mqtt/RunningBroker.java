package burnerbridge.mqtt;

/** A broker of this machine that a test can kill. */
interface RunningBroker extends AutoCloseable {
    int port();

    /** Ends it at once, with all that it retained. */
    void kill();

    /** Starts it again, empty, on the same port. */
    void startAgain();

    @Override
    default void close() {
        kill();
    }
}
