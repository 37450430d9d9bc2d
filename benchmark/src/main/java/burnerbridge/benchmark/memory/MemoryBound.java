package burnerbridge.benchmark.memory;

import burnerbridge.benchmark.measure.KernelText;
import burnerbridge.benchmark.measure.MachineClock;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;

/**
 * A control group with a limit of memory, as a container has one: whoever asks for more is ended by the kernel. Counted is
 * what its processes keep themselves, what of files they read first, and what the kernel keeps for them.
 */
public final class MemoryBound implements AutoCloseable {
    private static final Path V1 = Path.of("/sys/fs/cgroup/memory");
    private static final Path V2 = Path.of("/sys/fs/cgroup");
    private static final int MOST_LOOKS = 100;
    private static final Duration LOOK = Duration.ofMillis(50);

    private final Path group;
    private final Names files;

    /** What the kernel calls it. */
    private record Names(String limit, String most, String events, String killed) {
        static final Names OF_V1 =
                new Names("memory.limit_in_bytes", "memory.max_usage_in_bytes", "memory.oom_control", "oom_kill");
        static final Names OF_V2 = new Names("memory.max", "memory.peak", "memory.events", "oom_kill");
    }

    private MemoryBound(Path group, Names files) {
        this.group = group;
        this.files = files;
    }

    /** Whether this machine lets us make one. */
    public static boolean canBeMade() {
        try (MemoryBound tried = of(Long.MAX_VALUE / 2)) {
            return tried.mostBytes() >= 0;
        } catch (IOException e) {
            return false;
        }
    }

    /**
     * Makes one below the root of all groups.
     *
     * @throws IOException where this user may not, or the kernel has no such groups
     */
    static MemoryBound of(long bytes) throws IOException {
        Names files = Files.exists(V1.resolve(Names.OF_V1.limit())) ? Names.OF_V1 : Names.OF_V2;
        Path root = files.equals(Names.OF_V1) ? V1 : V2;
        MemoryBound bound = new MemoryBound(Files.createTempDirectory(root, "burner-bridge-benchmark"), files);
        try {
            Files.writeString(bound.group.resolve(files.limit()), Long.toString(bytes));
        } catch (IOException e) {
            bound.close();
            throw e;
        }
        return bound;
    }

    /** The same command within it from its first moment on. */
    List<String> within(List<String> command) {
        List<String> all =
                new ArrayList<>(List.of("sh", "-c", "echo $$ > '" + group + "/cgroup.procs' && exec \"$@\"", "sh"));
        all.addAll(command);
        return all;
    }

    /** The most that was in use so far. */
    long mostBytes() throws IOException {
        return Long.parseLong(Files.readString(group.resolve(files.most())).strip());
    }

    /** How many processes the kernel has ended in it; 0 where it does not say. */
    long killed() throws IOException {
        return KernelText.of(group.resolve(files.events()))
                .number(files.killed())
                .orElse(0);
    }

    /** Where its processes have ended it is taken away; where one lives on it stays. */
    @Override
    public void close() {
        MachineClock clock = new MachineClock();
        for (int look = 0; look < MOST_LOOKS; look++) {
            try {
                Files.deleteIfExists(group);
                return;
            } catch (IOException e) {
                clock.pause(LOOK);
            }
        }
    }
}
