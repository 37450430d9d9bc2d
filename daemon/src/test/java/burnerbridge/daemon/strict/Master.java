package burnerbridge.daemon.strict;

import java.util.Optional;
import java.util.concurrent.locks.LockSupport;

/** Whoever asks. For one thread. */
interface Master extends AutoCloseable {

    /** The values that it takes for good; empty where it takes none. */
    Optional<int[]> ask(Question question);

    /** What came of the last question, in words. */
    String last();

    /** What a master does that finds no connection: else a refusal of a moment would cost the whole stream. */
    static void pauseBeforeConnecting() {
        LockSupport.parkNanos(5_000_000);
    }

    @Override
    void close();
}
