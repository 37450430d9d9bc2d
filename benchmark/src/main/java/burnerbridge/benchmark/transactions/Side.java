package burnerbridge.benchmark.transactions;

/** Who reads. Used by one thread. */
interface Side extends AutoCloseable {

    /**
     * Reads for a round; connects first where it is not connected.
     *
     * @throws IllegalStateException where a read fails or has other values than those of {@link
     *     FieldDevice}: what is wrong is not worth measuring
     */
    Round read(Asked asked);

    /** Leaves the server to the other side. */
    void disconnect();

    @Override
    void close();
}
