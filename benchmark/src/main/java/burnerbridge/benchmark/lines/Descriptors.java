package burnerbridge.benchmark.lines;

import burnerbridge.benchmark.measure.KernelText;
import java.io.IOException;
import java.nio.file.Path;

/** Whether a process may have as many sockets as a plant needs. */
final class Descriptors {
    private static final String LIMIT = "Max open files";
    private static final int BESIDES = 200;

    private Descriptors() {}

    /** The plant has a listening and a connected socket for each line; the daemon less. */
    static void require(int lines) throws IOException {
        long allowed = allowed();
        long needed = 2L * lines + BESIDES;
        if (allowed < needed) {
            throw new IllegalStateException(
                    "needs " + needed + " open files, allowed are " + allowed + ": raise it with ulimit -n");
        }
    }

    private static long allowed() throws IOException {
        return KernelText.of(Path.of("/proc/self/limits")).number(LIMIT).orElse(Long.MAX_VALUE);
    }
}
