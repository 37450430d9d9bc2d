package burnerbridge.simulator.demo;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.TimeUnit;

/** The bridge as a child process, whose log goes to a file. */
final class DaemonProcess implements AutoCloseable {
    /** The bridge ends within 5 s of being asked. */
    private static final long SECONDS_TO_END = 6;

    private final Process process;
    private final Path log;

    private DaemonProcess(Process process, Path log) {
        this.process = process;
        this.log = log;
    }

    static DaemonProcess start(List<String> command, Path log) throws IOException {
        ProcessBuilder builder =
                new ProcessBuilder(command).redirectErrorStream(true).redirectOutput(log.toFile());
        // What the bridge keeps for itself goes with the demo.
        builder.environment().put("STATE_DIRECTORY", stateFolder(log).toString());
        Process process = builder.start();
        process.getOutputStream().close();
        return new DaemonProcess(process, log);
    }

    /** What the bridge keeps for itself, beside its log. */
    static Path stateFolder(Path log) {
        return log.resolveSibling("state");
    }

    boolean isAlive() {
        return process.isAlive();
    }

    /** How it ended, with the last lines of its log. */
    String obituary(int lines) throws IOException {
        List<String> all = new String(Files.readAllBytes(log), StandardCharsets.UTF_8)
                .lines()
                .toList();
        List<String> tail = all.subList(Math.max(0, all.size() - lines), all.size());
        return "the bridge ended by itself with exit code " + process.exitValue() + "; the end of its log " + log + ":"
                + System.lineSeparator()
                + (tail.isEmpty() ? "  (nothing)" : "  " + String.join(System.lineSeparator() + "  ", tail));
    }

    @Override
    public void close() {
        process.destroy();
        try {
            if (!process.waitFor(SECONDS_TO_END, TimeUnit.SECONDS)) {
                process.destroyForcibly().waitFor(1, TimeUnit.SECONDS);
            }
        } catch (InterruptedException e) {
            process.destroyForcibly();
            Thread.currentThread().interrupt();
        }
    }
}
