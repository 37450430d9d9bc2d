package burnerbridge.simulator.device;

/** A door that is open. */
interface Port extends AutoCloseable {

    /** Its number on TCP; 0 where it has none. */
    int number();

    @Override
    void close();
}
