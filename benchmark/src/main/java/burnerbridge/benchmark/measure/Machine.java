package burnerbridge.benchmark.measure;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;

/** What a measurement ran on, without anything that names the machine. */
public final class Machine {
    private Machine() {}

    /** The processor, how many of them, and how many others wanted them at this moment. */
    public static String text() {
        return Runtime.getRuntime().availableProcessors() + " processors (" + processor() + "), load average "
                + firstWord(read("/proc/loadavg"));
    }

    private static String firstWord(String text) {
        return text.substring(0, text.indexOf(' '));
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
