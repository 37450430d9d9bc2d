package burnerbridge.benchmark.measure;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.Locale;

/** What a measurement ran on, without anything that names the machine. */
public final class Machine {
    private static final double KIB_PER_GIB = 1 << 20;

    private Machine() {}

    /** The processor, how many of them, and how many others wanted them at this moment. */
    public static String text() {
        return processors() + ", load average " + load();
    }

    /** All that makes a difference. */
    public static String whole() {
        long kib = new KernelText(read("/proc/meminfo")).number("MemTotal:").orElse(0);
        return processors()
                + String.format(Locale.ROOT, ", %.1f GiB of memory, Linux ", kib / KIB_PER_GIB)
                + read("/proc/sys/kernel/osrelease").replaceFirst("(?s)[^0-9.].*", "");
    }

    private static String processors() {
        return Runtime.getRuntime().availableProcessors() + " processors (" + processor() + ")";
    }

    /** How many wanted a processor, on the average of the last minute. */
    public static String load() {
        String text = read("/proc/loadavg");
        return text.substring(0, text.indexOf(' '));
    }

    /** What share of all processors others take: looks on for so long, and does nothing meanwhile. */
    public static double busyShare(MachineClock clock, Duration length) {
        ProcessorTicks before = ProcessorTicks.parse(read("/proc/stat"));
        clock.pause(length);
        return ProcessorTicks.parse(read("/proc/stat")).busyShareSince(before);
    }

    /** The Java that runs this. */
    public static String java() {
        return System.getProperty("java.vm.name") + " " + Runtime.version();
    }

    private static String processor() {
        return read("/proc/cpuinfo")
                .lines()
                .filter(line -> line.startsWith("model name"))
                .map(line -> line.substring(line.indexOf(':') + 1).strip())
                .findFirst()
                .orElse("model unknown");
    }

    private static String read(String path) {
        try {
            return Files.readString(Path.of(path));
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}
