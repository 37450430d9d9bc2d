package burnerbridge.benchmark.lines;

import burnerbridge.benchmark.measure.KernelText;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;

/**
 * What the kernel says of a process at a moment.
 *
 * @param residentKib memory that is resident
 * @param threads of the platform, all of them
 * @param lineThreads those of them that are a line's own
 * @param carriers those of them that carry virtual threads
 */
record ProcessState(long residentKib, int threads, int lineThreads, int carriers) {

    static ProcessState of(long pid) throws IOException {
        Path folder = Path.of("/proc", Long.toString(pid));
        KernelText status = KernelText.of(folder.resolve("status"));
        List<String> names = threadNames(folder.resolve("task"));
        return new ProcessState(
                status.number("VmRSS:").orElseThrow(),
                (int) status.number("Threads:").orElseThrow(),
                starting(names, "line "),
                starting(names, "ForkJoinPool-1-"));
    }

    /** As the kernel keeps them: cut to fifteen characters. */
    private static List<String> threadNames(Path tasks) throws IOException {
        try (Stream<Path> all = Files.list(tasks)) {
            return all.map(ProcessState::nameOf).toList();
        }
    }

    private static String nameOf(Path task) {
        try {
            return Files.readString(task.resolve("comm"));
        } catch (IOException e) {
            // It has ended meanwhile.
            return "";
        }
    }

    private static int starting(List<String> names, String beginning) {
        return (int) names.stream().filter(name -> name.startsWith(beginning)).count();
    }
}
