package burnerbridge.simulator.device;

/** One client's connection, with a thread that serves it until either side ends it. */
interface Connection extends Runnable, AutoCloseable {

    String name();

    @Override
    void close();
}
