package burnerbridge.daemon.outside;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.TimeUnit;

/** A program that runs beside the test; ended by its own handle, its words kept in a file. */
public final class Program implements AutoCloseable {
    private static final long LONGEST_END_SECONDS = 180;

    private final Process process;
    private final Path log;

    private Program(Process process, Path log) {
        this.process = process;
        this.log = log;
    }

    public static Program start(Path log, List<String> command) {
        try {
            Process process = new ProcessBuilder(command)
                    .redirectErrorStream(true)
                    .redirectOutput(ProcessBuilder.Redirect.appendTo(log.toFile()))
                    .start();
            return new Program(process, log);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    public boolean isAlive() {
        return process.isAlive();
    }

    public long pid() {
        return process.pid();
    }

    public String said() {
        try {
            return Files.readString(log);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /** Ends it as a service manager does, and says with which exit code. */
    public int end() {
        process.destroy();
        return awaitEnd();
    }

    /** Ends it as a power cut does. */
    public void cut() {
        process.destroyForcibly();
        awaitEnd();
    }

    public int awaitEnd() {
        try {
            if (!process.waitFor(LONGEST_END_SECONDS, TimeUnit.SECONDS)) {
                throw new IllegalStateException("still runs after " + LONGEST_END_SECONDS + " s: " + said());
            }
            return process.exitValue();
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            throw new IllegalStateException(e);
        }
    }

    @Override
    public void close() {
        if (process.isAlive()) {
            cut();
        }
    }
}
