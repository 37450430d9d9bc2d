package burnerbridge.benchmark.bacnet.device;

/** A device with Analog Inputs from instance 1 on, that answers. */
interface Served extends AutoCloseable {
    /** Gives one of them, counted from 0, another value. */
    void change(int object, int value);

    /** What it holds and did, for people. */
    String state();

    @Override
    void close();
}
