package burnerbridge.daemon.strict;

import java.util.Optional;
import java.util.concurrent.locks.LockSupport;

/** Whoever asks. For one thread. */
interface Master extends AutoCloseable {

    /**
     * What it takes for good.
     *
     * @param askedAt the moment, of {@link System#nanoTime}, than which it says that the values are no older
     */
    @SuppressWarnings("ArrayRecordComponent") // never compared
    record Taken(int[] values, long askedAt) {}

    /** Empty where it takes none. */
    Optional<Taken> ask(Question question);

    /** What came of the last question, in words. */
    String last();

    /** What a master does that finds no connection: else a refusal of a moment would cost the whole stream. */
    static void pauseBeforeConnecting() {
        LockSupport.parkNanos(5_000_000);
    }

    @Override
    void close();
}
