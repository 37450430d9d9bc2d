package burnerbridge.benchmark.bacnet.device;

import burnerbridge.benchmark.measure.KernelText;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Path;

/** How much of a process is in memory. */
public final class ResidentMemory {
    private static final double KIB_PER_MIB = 1024;

    private ResidentMemory() {}

    public static double mib(long pid) {
        try {
            return KernelText.of(Path.of("/proc", Long.toString(pid), "status"))
                            .number("VmRSS:")
                            .orElseThrow()
                    / KIB_PER_MIB;
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}
