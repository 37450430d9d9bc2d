package burnerbridge.daemon.strict;

import java.util.Optional;

/** Whoever asks. For one thread. */
interface Master extends AutoCloseable {

    /** The values that it takes for good; empty where it takes none. */
    Optional<int[]> ask(Question question);

    @Override
    void close();
}
