package burnerbridge.daemon;

import burnerbridge.health.HealthSource;
import burnerbridge.health.Place;
import burnerbridge.health.Trouble;
import burnerbridge.health.Trouble.Weight;
import burnerbridge.measure.Metric;
import burnerbridge.measure.MetricSink;
import burnerbridge.measure.MetricSource;
import burnerbridge.model.Stamp;
import java.io.File;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.FileStore;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.function.BooleanSupplier;
import java.util.function.Consumer;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/** What the process takes of the box, and what of the box it needs. For any thread. */
final class MachineVitals implements HealthSource, MetricSource {
    private static final Logger LOG = LoggerFactory.getLogger(MachineVitals.class);
    /** With less than this the audit and what the gate remembers may soon not be kept. */
    private static final long LITTLE_ROOM = 5L << 20;

    private static final Metric INFO =
            Metric.gauge("burner_bridge_build", "Always 1; the labels say what runs.", "version", "java", "site");
    private static final Metric START =
            Metric.gauge("burner_bridge_start_time_seconds", "When the bridge started, by the clock of then.");
    private static final Metric CLOCK =
            Metric.gauge("burner_bridge_clock_believed", "1 while the clock of the box is believed, else 0.");
    private static final Metric HEAP_USED =
            Metric.gauge("burner_bridge_heap_used_bytes", "The heap that is taken, with what waits to be collected.");
    private static final Metric HEAP_MOST =
            Metric.gauge("burner_bridge_heap_limit_bytes", "How far the heap may grow.");
    private static final Metric RESIDENT =
            Metric.gauge("burner_bridge_resident_memory_bytes", "Resident memory of the process, of all kinds.");
    private static final Metric CPU =
            Metric.counter("burner_bridge_cpu_seconds", "Processor time of the process, of user and system.");
    private static final Metric OPEN_FILES =
            Metric.gauge("burner_bridge_open_files", "Files and sockets that the process has open.");
    private static final Metric ROOM =
            Metric.gauge("burner_bridge_state_free_bytes", "Room that is left where the state folder is.");

    private final String site;
    private final Path stateFolder;
    private final Stamp startedAt;
    private final BooleanSupplier clockBelieved;
    /** As it was looked at last; a disk that hangs must not hold up who asks how the bridge is. */
    private volatile OptionalLong room = OptionalLong.empty();

    private boolean toldLittle;

    MachineVitals(String site, Path stateFolder, Stamp startedAt, BooleanSupplier clockBelieved) {
        this.site = site;
        this.stateFolder = stateFolder;
        this.startedAt = startedAt;
        this.clockBelieved = clockBelieved;
    }

    /**
     * Looks how much room there is, and tells in the log when it is little, and when it is enough again. One thread calls
     * it, now and then.
     */
    void step() {
        room = roomNow();
        Optional<Trouble> little = littleRoom();
        if (little.isPresent() && !toldLittle) {
            LOG.warn("{}", little.get().sentence());
        } else if (little.isEmpty() && toldLittle) {
            LOG.info("state folder: there is room again where {} is", stateFolder);
        }
        toldLittle = little.isPresent();
    }

    @Override
    public void tell(Consumer<Trouble> troubles) {
        littleRoom().ifPresent(troubles);
    }

    private Optional<Trouble> littleRoom() {
        OptionalLong left = room;
        if (left.isEmpty() || left.getAsLong() >= LITTLE_ROOM) {
            return Optional.empty();
        }
        return Optional.of(new Trouble(
                Place.BRIDGE,
                "state folder",
                left.getAsLong() / 1024 + " KiB are left where " + stateFolder
                        + " is; where it is full nothing is written" + " to a controller but what silence asks for",
                "what fills it, such as a log",
                null,
                Weight.DEGRADED));
    }

    @Override
    public void measure(MetricSink sink) {
        Runtime runtime = Runtime.getRuntime();
        sink.sample(INFO, 1, Main.VERSION, Runtime.version().toString(), site);
        sink.sample(START, startedAt.wall().toEpochMilli() / 1e3);
        sink.sample(CLOCK, clockBelieved.getAsBoolean() ? 1 : 0);
        sink.sample(HEAP_USED, (double) runtime.totalMemory() - runtime.freeMemory());
        sink.sample(HEAP_MOST, runtime.maxMemory());
        resident().ifPresent(bytes -> sink.sample(RESIDENT, bytes));
        ProcessHandle.current()
                .info()
                .totalCpuDuration()
                .map(Duration::toNanos)
                .ifPresent(nanos -> sink.sample(CPU, nanos / 1e9));
        openFiles().ifPresent(count -> sink.sample(OPEN_FILES, count));
        room.ifPresent(bytes -> sink.sample(ROOM, bytes));
    }

    private OptionalLong roomNow() {
        try {
            FileStore store = Files.getFileStore(stateFolder);
            return OptionalLong.of(store.getUsableSpace());
        } catch (IOException e) {
            return OptionalLong.empty();
        }
    }

    /** As the kernel has it (proc(5), from memory); empty on another system. */
    private static OptionalLong resident() {
        try {
            return Files.readAllLines(Path.of("/proc/self/status"), StandardCharsets.ISO_8859_1).stream()
                    .filter(line -> line.startsWith("VmRSS:"))
                    .mapToLong(line -> Long.parseLong(line.replaceAll("[^0-9]", "")) * 1024)
                    .findFirst();
        } catch (IOException e) {
            return OptionalLong.empty();
        }
    }

    private static OptionalLong openFiles() {
        String[] names = new File("/proc/self/fd").list();
        return names == null ? OptionalLong.empty() : OptionalLong.of(names.length);
    }
}
